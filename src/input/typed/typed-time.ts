import type { Instant } from '../../core/job.ts';
import { dateTimeIn } from '../../time/zones.ts';
import { readTime } from '../job/read-time.ts';
import { right, type Typed, wrong } from './typed.ts';

/** A time as it is written into a file, and the instant that it is. */
export interface TypedTime {
  readonly text: string;
  readonly at: Instant;
}

const clockOnly = /^(\d{1,2}):(\d{2})(:\d{2})?$/u;

/**
 * A time as typed: `10:30` is today in the zone; otherwise as in a file. A time after `now` is refused, since nothing
 * can have been read or done then.
 *
 * @param now what counts as now
 */
export const typedTime = (typed: string, zone: string, now: Instant): Typed<TypedTime> => {
  const clock = clockOnly.exec(typed.trim());
  const today = dateTimeIn(zone, now).toFormat('yyyy-MM-dd');
  const text = clock
    ? `${today}T${clock[1]?.padStart(2, '0')}:${clock[2]}${clock[3] ?? ''}`
    : typed.trim().replace(/^(\d{4}-\d{2}-\d{2}) +/u, '$1T');
  const read = readTime(text, zone);
  if (!read.ok) {
    // What to do about a time that the clocks skip is known; of anything else the form is shown.
    return wrong(
      typed,
      read.message,
      read.code === 'skipped-time' ? read.hint : 'write it like 10:30, or 2026-03-02T10:30',
    );
  }
  const { stamp, ambiguous } = read;
  if (stamp.resolution > 60_000)
    return wrong(typed, `"${text}" has no time of day`, `write it like ${text}T08:40`);
  if (stamp.at > now) {
    const clockNow = dateTimeIn(zone, now).toFormat('yyyy-MM-dd HH:mm');
    const hint = clock ? 'give the day, too, if it was another day' : 'check the day and the hour';
    return wrong(typed, `${text.replace('T', ' ')} is after now (${clockNow} ${zone})`, hint);
  }
  // Of a time that the clocks show twice the offset tells which was understood.
  const local = dateTimeIn(zone, stamp.at);
  return right({ text: ambiguous ? `${text}${local.toFormat('ZZ')}` : text, at: stamp.at });
};

/**
 * An instant as it is written into a file: local time in the zone, to the second, with the offset only where the
 * clocks show that time twice.
 *
 * @param toMinute true where the seconds are not known
 */
export const writtenTime = (at: Instant, zone: string, toMinute = false): TypedTime => {
  const local = dateTimeIn(zone, at);
  const form = toMinute ? "yyyy-MM-dd'T'HH:mm" : "yyyy-MM-dd'T'HH:mm:ss";
  const plain = local.toFormat(form);
  const read = readTime(plain, zone);
  const sure = read.ok && !read.ambiguous;
  return { text: sure ? plain : local.toFormat(`${form}ZZ`), at };
};
