import type { Instant, Job, LogEntry } from '../job.ts';
import { parseKey } from '../key.ts';
import type { LogPattern, Mark } from './condition.ts';
import { isWork } from './staleness.ts';

/** Whether an entry matches a pattern; a component's base matches it at every corner. */
export const matches = (entry: LogEntry, pattern: LogPattern): boolean => {
  const verb = pattern.did.some((did) => (did === 'work' ? isWork(entry) : did === entry.did));
  if (!verb) return false;
  if (pattern.what === null) return true;
  const { what } = entry;
  return what !== null && (pattern.what.includes(what) || pattern.what.includes(parseKey(what).base));
};

export const matchesAny = (entry: LogEntry, patterns: readonly LogPattern[]): boolean =>
  patterns.some((pattern) => matches(entry, pattern));

/** The open interval of time that a mark allows evidence to lie in. */
export interface Window {
  readonly after: Instant;
  readonly before: Instant;
}

const isClear = (entry: LogEntry): boolean =>
  entry.did === 'cleared' && entry.what === 'codes' && !entry.failed;
const isRoadTest = (entry: LogEntry): boolean =>
  entry.did === 'drove' && entry.what === 'road-test' && !entry.failed;

/**
 * The window of a mark, or null where what it comes after has not happened. Evidence at the very time of the mark
 * is on neither side of it.
 */
export const windowOf = (log: readonly LogEntry[], mark: Mark | null): Window | null => {
  const always = { after: Number.NEGATIVE_INFINITY, before: Number.POSITIVE_INFINITY };
  const sinceLast = (is: (entry: LogEntry) => boolean): Window | null => {
    const last = log.findLast(is);
    return last ? { ...always, after: last.stamp.at } : null;
  };
  switch (mark) {
    case null:
      return always;
    case 'before-work':
      return { ...always, before: log.find(isWork)?.stamp.at ?? always.before };
    case 'before-clear':
      return { ...always, before: log.find(isClear)?.stamp.at ?? always.before };
    case 'after-work':
      return sinceLast(isWork);
    case 'after-clear':
      return sinceLast(isClear);
    case 'after-road-test':
      return sinceLast(isRoadTest);
  }
};

export const isIn = (at: Instant, window: Window | null): boolean =>
  window !== null && at > window.after && at < window.before;

/** A part that was declined afterwards, and that nobody worked on, was never ordered as far as the work goes. */
export const takenBack = (entry: LogEntry, { log }: Job): boolean =>
  (entry.did === 'ordered' || entry.did === 'received') &&
  log.indexOf(entry) < log.findLastIndex(({ did, what }) => did === 'declined' && what === entry.what) &&
  !log.some((one) => isWork(one) && one.what === entry.what);
