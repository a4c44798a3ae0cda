import { heldVerbs, type Job, type LogEntry } from '../job.ts';
import { takenBack } from '../steps/log-entries.ts';
import { isLater } from '../steps/staleness.ts';
import type { WorksheetHoldPoint } from '../worksheet-parts.ts';
import { decisionsOf } from './decisions.ts';

/** The hold point that an entry waits for; null where it waits for none. */
export const pointFor = ({ did, closing, what }: LogEntry): string | null => {
  if (did === 'ordered') return what === null ? null : 'order-part';
  if (did === 'released') return 'release';
  return did === 'closed' && (closing === null || closing === 'repaired') ? 'release' : null;
};

/** Whether an entry needs no look: the vehicle was released in order before its file is closed, or access is ordered. */
const isFree = ({ did, what }: LogEntry, before: Job): boolean =>
  did === 'closed'
    ? decisionsOf(before).released?.despite === null
    : did === 'ordered' && (before.equipment ?? []).some(({ does }) => does.includes(what ?? ''));

/** Whether an entry has a hold point to be held against, in the job as it stood before. */
export const isHeld = (entry: LogEntry, before: Job): boolean =>
  pointFor(entry) !== null && !isFree(entry, before);

/**
 * The job as it stood just before an entry; an order is looked at with itself, since it is what puts its part in
 * question.
 */
export const jobBefore = (job: Job, entry: LogEntry): Job => ({
  ...job,
  status: 'open',
  snapshots: job.snapshots.filter(({ stamp }) => stamp.at <= entry.stamp.at),
  log: [
    ...job.log.filter((one) => one !== entry && isLater(entry, one)),
    ...(entry.did === 'ordered' ? [entry] : []),
  ],
});

/**
 * The hold point that does not allow an entry; null where it is clear, only a reminder, or not there.
 *
 * @param before the job as `jobBefore` gives it
 * @param points its hold points
 */
export const pointAgainst = (
  entry: LogEntry,
  points: readonly WorksheetHoldPoint[],
): WorksheetHoldPoint | null => {
  const point = points.find(({ id }) => id === pointFor(entry));
  return !point || point.clear || !point.holds ? null : point;
};

/** Entries that must be held against their hold points: those that say why they were written all the same are not. */
export const entriesHeld = (job: Job): readonly LogEntry[] =>
  job.log.filter(
    (entry) =>
      heldVerbs.includes(entry.did) &&
      entry.despite === null &&
      !entry.failed &&
      pointFor(entry) !== null &&
      !takenBack(entry, job),
  );
