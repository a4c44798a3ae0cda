import type { Instant } from '../../core/job.ts';
import { dateTimeIn } from '../../time/zones.ts';
import { endOfDay } from '../job/read-time.ts';
import { quoted } from '../quoted.ts';
import { right, type Typed, wrong } from './typed.ts';

/** A day as files spell it, `2026-03-09`. */
const day = /^\d{4}-\d{2}-\d{2}$/u;

/** `7d`, `P7D`, `2w` as a number of days. */
const span = /^p?(\d{1,3})\s*([dw])$/iu;

/**
 * The last day of something that ends, as typed: a day, or how many days from today. A day that is over is refused.
 *
 * @param now what counts as now
 */
export const typedDay = (typed: string, zone: string, now: Instant): Typed<string> => {
  const own = typed.trim();
  const [, count, unit] = span.exec(own) ?? [];
  const today = dateTimeIn(zone, now);
  const days = count === undefined ? null : Number(count) * (unit?.toLowerCase() === 'w' ? 7 : 1);
  const text = days === null ? own : today.plus({ days }).toFormat('yyyy-MM-dd');
  const ends = day.test(text) ? endOfDay(text, zone) : null;
  if (ends === null) {
    const example = today.plus({ days: 7 }).toFormat('yyyy-MM-dd');
    return wrong(
      typed,
      `${quoted(own)} is not a day`,
      `write it like ${example}, or 7d for a week from today`,
    );
  }
  return ends <= now
    ? wrong(
        typed,
        `${text} is over (today is ${today.toFormat('yyyy-MM-dd')})`,
        'name a day that is still to end',
      )
    : right(text);
};
