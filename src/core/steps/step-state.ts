import type { Instant, LogEntry } from '../job.ts';
import type { Step } from '../pack.ts';
import type { Reason } from '../worksheet-parts.ts';
import { answer } from './answer.ts';
import { bringing, type Ground } from './ground.ts';
import { matches, matchesAny } from './log-entries.ts';

/** What the log and the snapshots say of a step, before what it waits for is known. */
export interface Standing {
  readonly step: Step;
  readonly needed: boolean;
  readonly done: boolean;
  readonly because: readonly Reason[];
  /** When what makes it needed came about; null where that has no time. */
  readonly since: Instant | null;
}

interface Evidence {
  readonly at: Instant;
  /** The log entry, or null where snapshots are the evidence. */
  readonly entry: LogEntry | null;
  readonly reasons: readonly Reason[];
}

const newestAttempt = (step: Step, { job }: Ground): LogEntry | undefined =>
  job.log.findLast(
    (entry) =>
      matchesAny(entry, step.answeredBy) ||
      // What is skipped is asked for no more; the entry says why.
      matches(entry, { did: ['completed', 'skipped'], what: [step.name, step.id] }),
  );

const logReason = <K extends 'logged' | 'failed' | 'undone'>(entry: LogEntry, kind: K) => ({
  kind,
  did: entry.did,
  what: entry.what,
  at: entry.stamp.at,
});

/** Whether an entry came after the evidence; of one time, the file's order decides between two entries. */
const isAfter = (entry: LogEntry, evidence: Evidence): boolean => {
  if (entry.stamp.at !== evidence.at) return entry.stamp.at > evidence.at;
  return evidence.entry === null || entry.order > evidence.entry.order;
};

/** The newest evidence that answers a step, with the reason where there is none. */
const evidenceFor = (step: Step, ground: Ground): { found: Evidence | null; against: readonly Reason[] } => {
  const entry = newestAttempt(step, ground);
  const byLog: Evidence | null =
    entry && !entry.failed ? { at: entry.stamp.at, entry, reasons: [logReason(entry, 'logged')] } : null;
  const told = step.answeredIf === null ? null : answer(step.answeredIf, ground);
  const bySnapshots: Evidence | null = told?.holds
    ? { at: told.at ?? ground.asOf, entry: null, reasons: told.reasons }
    : null;
  if (byLog && (!bySnapshots || byLog.at >= bySnapshots.at)) return { found: byLog, against: [] };
  if (bySnapshots) return { found: bySnapshots, against: [] };
  return { found: null, against: entry?.failed ? [logReason(entry, 'failed')] : (told?.reasons ?? []) };
};

/**
 * Where a step stands: needed if its condition holds; done if the newest evidence for it is good and nothing has
 * undone it since. Everything is decided from times, never from the order in the file alone.
 */
const standing = (step: Step, ground: Ground, withFailed: Ground): Standing => {
  const when = step.when === null ? null : answer(step.when, withFailed);
  const needed = when === null || when.holds;
  const why: readonly Reason[] = when === null ? [{ kind: 'every-job' }] : when.reasons;
  const { found, against } = evidenceFor(step, ground);
  const since = when?.at ?? null;
  if (found === null)
    return { step, needed, done: false, because: needed ? [...why, ...against] : why, since };
  const undoing = ground.job.log.find((entry) => matchesAny(entry, step.undoneBy) && isAfter(entry, found));
  if (undoing) {
    return { step, needed, done: false, because: [...why, logReason(undoing, 'undone')], since };
  }
  const shown = step.undoneIf === null ? null : answer(step.undoneIf, ground);
  if (shown?.holds && (shown.at ?? 0) > found.at)
    return { step, needed, done: false, because: [...why, ...shown.reasons], since };
  return { step, needed, done: true, because: found.reasons, since };
};

/** Where each of some steps stands. */
export const standings = (steps: readonly Step[], ground: Ground): Standing[] => {
  const withFailed = bringing(ground);
  return steps.map((step) => standing(step, ground, withFailed));
};
