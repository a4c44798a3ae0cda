import { DateTime, Duration } from 'luxon';
import type { Instant, Stamp } from '../../core/job.ts';
import { dateTimeIn } from '../../time/zones.ts';
import { didYouMean } from '../suggest.ts';
import { offsetOf } from './calendar-time.ts';
import { instantsOf, localAt, pushedForward, startOfDay } from './local-time.ts';
import { typedTime } from './time-form.ts';

export type TimeResult =
  | { readonly ok: true; readonly stamp: Stamp; readonly ambiguous: boolean }
  | {
      readonly ok: false;
      readonly code: 'bad-time' | 'skipped-time';
      readonly message: string;
      readonly hint: string;
    };

/** What to write for a zone that is not known. */
export const zoneHint = (zone: string): string | null =>
  didYouMean(zone, Intl.supportedValuesOf('timeZone'), 'name one such as Europe/Dublin');

/**
 * A typed time to an instant. Local times are read in `zone`; an offset in the text is obeyed. A date alone is the
 * beginning of its day. A time that the zone skips (clocks going forward) is refused; of one that it has twice the
 * first counts.
 */
export const readTime = (typed: string, zone: string): TimeResult => {
  const form = typedTime(typed);
  if (!form.ok) return form;
  const { date, clock, offset, local, resolution } = form;
  const stamped = (at: Instant, ambiguous = false): TimeResult => ({
    ok: true,
    stamp: { at, resolution },
    ambiguous,
  });
  if (offset) return stamped(local - offsetOf(offset));
  if (clock === undefined) {
    const at = startOfDay(local, zone);
    const day = dayText(localAt(at, zone));
    return day === date ? stamped(at) : skipped(zone, date, day);
  }
  const [first, second] = instantsOf(local, zone);
  if (first !== undefined) return stamped(first, second !== undefined);
  const meant = localAt(pushedForward(local, zone), zone);
  return skipped(zone, `${clock} on ${date}`, new Date(meant).toISOString().slice(0, 16));
};

const dayText = (local: number): string => new Date(local).toISOString().slice(0, 10);

const skipped = (zone: string, what: string, meant: string): TimeResult => ({
  ok: false,
  code: 'skipped-time',
  message: `the clocks in ${zone} skip ${what}`,
  hint: `they go forward then; write ${meant} if that is what was meant`,
});

/** The first instant after a day in a zone: where something that lasts through that day ends. */
export const endOfDay = (date: string, zone: string): Instant | null => {
  const day = DateTime.fromISO(date, { zone: 'utc' });
  return /^\d{4}-\d{2}-\d{2}$/u.test(date) && day.isValid
    ? startOfDay(day.plus({ days: 1 }).toMillis(), zone)
    : null;
};

/** The instant an ISO 8601 duration after another, counted on the zone's calendar; null if it is no duration. */
export const after = (at: Instant, duration: string, zone: string): Instant | null => {
  const span = Duration.fromISO(duration);
  // The library takes "P" for no time at all, and signs anywhere; a length of time has neither.
  if (!span.isValid || !/^P(?!.*-)(?=.*\d)/u.test(duration)) return null;
  const end = dateTimeIn(zone, at).plus(span);
  return end.isValid ? end.toMillis() : null;
};
