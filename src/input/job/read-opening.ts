import type { Instant, Stamp } from '../../core/job.ts';
import { dateTimeIn } from '../../time/zones.ts';
import { get, itemsOf, type Node, textOf } from '../yaml/tree.ts';
import { readTime } from './read-time.ts';

/** When a job was opened, and how that is known. */
export interface Opening {
  readonly stamp: Stamp;
  /** The day that a time of day alone is on, `YYYY-MM-DD` in the job's zone; worked out when it is asked for. */
  readonly day: () => string;
  /** `said` by the file, its `first-time`, or the time at which it was last `saved`. */
  readonly from: 'said' | 'first-time' | 'saved';
}

const clockOnly = /^(\d{1,2}):(\d{2})(:\d{2})?$/u;

/** Whether a text is a time of day alone. */
export const isClock = (text: string): boolean => clockOnly.test(text.trim());

/** A time of day on a day, as the text that both are together; other texts stay. */
export const onDay = (text: string, day: string): string => {
  const [, hours = '', minutes = '', seconds = ''] = clockOnly.exec(text.trim()) ?? [];
  return hours === '' ? text : `${day}T${hours.padStart(2, '0')}:${minutes}${seconds}`;
};

const dayOf = (at: Instant, zone: string): string => dateTimeIn(zone, at).toFormat('yyyy-MM-dd');

const stampOf = (text: string, zone: string): Stamp | null => {
  const read = readTime(text, zone);
  return read.ok ? read.stamp : null;
};

/** Every time at which something was read or done. */
const timesIn = (root: Node): string[] =>
  ['snapshots', 'log']
    .flatMap((key) => itemsOf(get(root, key)))
    .map((item) => textOf(get(item, 'at')))
    .filter((text) => text !== undefined);

const minute = 60_000;

/** The earliest of some times; times that cannot be read are told elsewhere. */
const earliest = (texts: readonly string[], zone: string): Stamp | null => {
  let first: Stamp | null = null;
  for (const text of texts) {
    const stamp = stampOf(text, zone);
    if (stamp && (first === null || stamp.at < first.at)) first = stamp;
  }
  return first;
};

/**
 * When a job was opened: as its file says, else at the first time in it. A time of day alone is on the day opened, or
 * on the day of the first whole time; in a file without any, on the day on which it was saved.
 *
 * @param root the tree in its usual form
 * @param savedAt when the file was last saved, as far as that matters
 */
export const readOpening = (root: Node, zone: string, savedAt: (zone: string) => Instant): Opening => {
  const said = textOf(get(root, 'opened'));
  if (said !== undefined && !isClock(said)) {
    const stamp = stampOf(said, zone) ?? { at: 0, resolution: minute };
    return { stamp, day: () => dayOf(stamp.at, zone), from: 'said' };
  }
  const times = timesIn(root);
  const whole = earliest(
    times.filter((text) => !isClock(text)),
    zone,
  );
  const saved = whole === null ? savedAt(zone) : null;
  const date = dayOf(whole?.at ?? saved ?? 0, zone);
  const day = (): string => date;
  if (said !== undefined) {
    const stamp = stampOf(onDay(said, date), zone) ?? { at: 0, resolution: minute };
    return { stamp, day, from: saved === null ? 'first-time' : 'saved' };
  }
  const first = earliest(
    times.map((text) => onDay(text, date)),
    zone,
  );
  if (first !== null) return { stamp: first, day, from: saved === null ? 'first-time' : 'saved' };
  const at = Math.floor((saved ?? 0) / minute) * minute;
  return { stamp: { at, resolution: minute }, day, from: 'saved' };
};
