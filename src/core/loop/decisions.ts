import type { Job, LogEntry } from '../job.ts';
import { isWork } from '../steps/staleness.ts';

/** What people have decided about a job. */
export interface Decisions {
  /** The vehicle was given to somebody else, and has not come back. */
  readonly passedOn: LogEntry | null;
  /** Components whose repair the customer does not want; `cost` where no money is given. */
  readonly declined: ReadonlySet<string>;
  /** Tests and steps that are not done, by their names, with the entry that says why. */
  readonly skipped: ReadonlyMap<string, LogEntry>;
  /** The vehicle left, and nobody worked on it since. */
  readonly released: LogEntry | null;
  readonly closed: LogEntry | null;
}

const isOfVehicle = ({ what }: LogEntry): boolean => what === null || what === 'vehicle';

/** The last entry of a kind, unless one of another kind came after it. */
const lastUnless = (
  log: readonly LogEntry[],
  is: (entry: LogEntry) => boolean,
  ends: (entry: LogEntry) => boolean,
): LogEntry | null => {
  const place = log.findLastIndex(is);
  return place >= 0 && !log.slice(place + 1).some(ends) ? (log[place] ?? null) : null;
};

/** What was asked for again after it had been declined. */
const revives = (entry: LogEntry): boolean =>
  isWork(entry) || entry.did === 'ordered' || entry.did === 'received' || entry.did === 'authorised';

const declinedIn = (log: readonly LogEntry[]): ReadonlySet<string> => {
  const declined = new Set<string>();
  for (const entry of log) {
    const { did, what, failed } = entry;
    if (what === null || failed) continue;
    if (did === 'declined') declined.add(what);
    else if (revives(entry)) declined.delete(what);
  }
  return declined;
};

/** What is skipped stays so until it is done after all. */
const skippedIn = (log: readonly LogEntry[]): ReadonlyMap<string, LogEntry> => {
  const skipped = new Map<string, LogEntry>();
  for (const entry of log) {
    const { did, what } = entry;
    if (what === null) continue;
    if (did === 'skipped') skipped.set(what, entry);
    else if (did === 'tested' || did === 'completed') skipped.delete(what);
  }
  return skipped;
};

/** Reads what people decided from a log, its entries in order. */
export const decisionsOf = ({ log }: Pick<Job, 'log'>): Decisions => ({
  passedOn: lastUnless(
    log,
    (entry) => entry.did === 'passed-on' && isOfVehicle(entry),
    (entry) => isWork(entry) || (entry.did === 'received' && isOfVehicle(entry)),
  ),
  declined: declinedIn(log),
  skipped: skippedIn(log),
  released: lastUnless(
    log,
    (entry) => entry.did === 'released' && isOfVehicle(entry) && !entry.failed,
    isWork,
  ),
  closed: log.findLast(({ did }) => did === 'closed') ?? null,
});
