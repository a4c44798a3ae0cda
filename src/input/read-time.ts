import { DateTime, Duration, IANAZone } from 'luxon';
import type { Instant, Stamp } from '../core/job.ts';

export type TimeResult =
  | { readonly ok: true; readonly stamp: Stamp; readonly ambiguous: boolean }
  | {
      readonly ok: false;
      readonly code: 'bad-time' | 'skipped-time';
      readonly message: string;
      readonly hint: string;
    };

const form = /^(\d{4}-\d{2}-\d{2})(?:[T ](\d{2}:\d{2})(:\d{2}(?:\.\d{1,3})?)?(Z|[+-]\d{2}:?\d{2})?)?$/u;

const example = 'write it like 2026-03-02T08:15';

/** Whether the zone database knows a zone. */
export const isZone = (zone: string): boolean => IANAZone.isValidZone(zone) || zone === 'UTC';

const isAmbiguous = (time: DateTime): boolean => time.getPossibleOffsets().length > 1;

/**
 * A typed time to an instant. Local times are read in `zone`; an offset in the text is obeyed. A date alone is its
 * midnight. A time that the zone skips (clocks going forward) is refused; of one that it has twice the first counts.
 */
export const readTime = (typed: string, zone: string): TimeResult => {
  const text = typed.trim();
  const match = form.exec(text);
  if (!match)
    return { ok: false, code: 'bad-time', message: `"${text.slice(0, 40)}" is not a time`, hint: example };
  const [, date = '', clock, seconds, offset] = match;
  const iso = `${date}T${clock ?? '00:00'}${seconds ?? ''}${offset ?? ''}`;
  const time = DateTime.fromISO(iso, { zone, setZone: false });
  if (!time.isValid) {
    const hint = 'check month, day, hour and minute';
    return { ok: false, code: 'bad-time', message: `"${text}" is not on the calendar or the clock`, hint };
  }
  // A skipped local time comes back as another one.
  if (!offset && time.toFormat('HH:mm') !== (clock ?? '00:00')) {
    return {
      ok: false,
      code: 'skipped-time',
      message: `the clocks in ${zone} skip ${clock ?? '00:00'} on ${date}`,
      hint: `they go forward then; write ${time.toFormat("yyyy-MM-dd'T'HH:mm")} if that is what the clock showed`,
    };
  }
  const resolution = seconds ? 1000 : clock ? 60_000 : 86_400_000;
  const ambiguous = !offset && isAmbiguous(time);
  const first = ambiguous ? time.getPossibleOffsets()[0] : time;
  return { ok: true, stamp: { at: (first ?? time).toMillis(), resolution }, ambiguous };
};

/** The first instant after a day in a zone: where something that lasts through that day ends. */
export const endOfDay = (date: string, zone: string): Instant | null => {
  const day = DateTime.fromISO(date, { zone });
  return /^\d{4}-\d{2}-\d{2}$/u.test(date) && day.isValid
    ? day.startOf('day').plus({ days: 1 }).toMillis()
    : null;
};

/** The instant an ISO 8601 duration after another, counted on the zone's calendar; null if it is no duration. */
export const after = (at: Instant, duration: string, zone: string): Instant | null => {
  const span = Duration.fromISO(duration);
  return span.isValid ? DateTime.fromMillis(at, { zone }).plus(span).toMillis() : null;
};
