import { quoted } from '../quoted.ts';
import { calendarTime } from './calendar-time.ts';

const form = /^(\d{4}-\d{2}-\d{2})(?:[T ](\d{2}:\d{2})(:\d{2}(?:\.\d{1,3})?)?(Z|[+-]\d{2}:?\d{2})?)?$/u;

const example = 'write it like 2026-03-02T08:15';

/** Zones differ from UTC by less than a day, and the database knows none further off. */
const offsetForm = /^(?:Z|[+-](?:0\d|1[0-4]):?[0-5]\d)$/u;

export interface BadTime {
  readonly ok: false;
  readonly code: 'bad-time';
  readonly message: string;
  readonly hint: string;
}

/** A time as it was typed; which instant it is hangs on the zone where it states no offset. */
export interface TypedTime {
  readonly ok: true;
  readonly date: string;
  /** `HH:MM`, or undefined where only a day was typed. */
  readonly clock: string | undefined;
  readonly offset: string | undefined;
  /** Date and clock as milliseconds as if in UTC. */
  readonly local: number;
  /** How fine it was typed, in milliseconds. */
  readonly resolution: number;
}

const badTime = (message: string, hint: string): BadTime => ({
  ok: false,
  code: 'bad-time',
  message,
  hint,
});

const resolutionOf = (clock: string | undefined, seconds: string | undefined): number => {
  if (seconds !== undefined) return seconds.includes('.') ? 1 : 1000;
  return clock === undefined ? 86_400_000 : 60_000;
};

/** What can be said of a typed time without its zone. */
export const typedTime = (typed: string): TypedTime | BadTime => {
  const text = typed.trim();
  const match = form.exec(text);
  if (!match) return badTime(`${quoted(text)} is not a time`, example);
  const [, date = '', clock, seconds, offset] = match;
  if (clock?.startsWith('24:'))
    return badTime(`${quoted(text)} is past the end of its day`, 'write 00:00 of the next day');
  if (offset !== undefined && !offsetForm.test(offset)) {
    return badTime(`no clock is ${quoted(offset)} from UTC`, 'write an offset such as +01:00, or none');
  }
  const local = calendarTime(date, clock ?? '00:00', seconds ?? '');
  if (local === null) {
    return badTime(
      `${quoted(text)} is not on the calendar or the clock`,
      'check month, day, hour and minute',
    );
  }
  return { ok: true, date, clock, offset, local, resolution: resolutionOf(clock, seconds) };
};
