import type { Instant } from '../core/job.ts';
import { readTime } from '../input/job/read-time.ts';

/** An instant that may hang on a job's zone: what `--as-of` names, or now; null where that zone skips it. */
export type AsOf = (zone: string) => Instant | null;

/** What `--as-of` names, whose form was looked at when it was typed; undefined where it was not given. */
export const asOfTyped = (text: string | undefined): AsOf | undefined =>
  text === undefined
    ? undefined
    : (zone) => {
        const read = readTime(text, zone);
        return read.ok ? read.stamp.at : null;
      };
