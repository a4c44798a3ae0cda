import type { Finding, Missing, Remark } from '../finding.ts';
import type { LogEntry, Snapshot, Weight } from '../job.ts';
import type { Check } from '../pack.ts';
import { mayFollow, mends } from '../steps/staleness.ts';
import type { CheckContext } from './check-context.ts';
import { findingOf, type Place } from './finding-base.ts';

/** What a check of a code list or a lamp says of one subject. */
export interface Verdictless {
  readonly subject: string;
  readonly verdict: 'within' | 'out';
  readonly weight: Weight;
  readonly words: string | null;
  readonly remarks: readonly Remark[];
}

/**
 * Whether a code list or a lamp is stale. Both depend on the whole vehicle, so any work and any clearing of codes since
 * they were read makes them stale, failed work too. Work logged at the time of reading counts as after it.
 */
const staleList = (snapshot: Snapshot, { works, job }: CheckContext): Pick<Place, 'stale' | 'charged'> => {
  const since = (entry: LogEntry): boolean => mayFollow(entry, snapshot.stamp.at);
  const mended =
    works.some((entry) => mends(entry) && since(entry)) ||
    job.log.some((entry) => entry.did === 'cleared' && since(entry));
  const stale = mended || works.some(since);
  return { stale, charged: stale && !mended };
};

/** A finding that rests on no quantity. */
const listFinding = (
  check: Check,
  context: CheckContext,
  snapshot: Snapshot,
  newest: boolean,
  { subject, verdict, weight, words, remarks }: Verdictless,
): Finding =>
  findingOf(
    check,
    context,
    subject,
    { snapshot, newest, ...staleList(snapshot, context) },
    { channels: [], verdict, weight, missing: null, words, remarks, basis: check.basis },
  );

/**
 * Judges every snapshot that has a list or a lamp; the newest of them, in any state, is the current one. Where superseded
 * findings are left out, older lists are, too, unless the job has waivers: one may name a code on an older list.
 */
export const judgeLists = (
  check: Check,
  context: CheckContext,
  has: (snapshot: Snapshot) => boolean,
  say: (snapshot: Snapshot) => readonly Verdictless[],
): Finding[] => {
  const read = context.job.snapshots.filter(has);
  const newest = read.at(-1);
  const all = context.superseded || context.job.waivers.length > 0;
  const findings: Finding[] = [];
  for (let place = read.length - 1; place >= 0; place -= 1) {
    const snapshot = read[place];
    if (!snapshot) break;
    const own = say(snapshot).map((said) => listFinding(check, context, snapshot, snapshot === newest, said));
    findings.unshift(...own);
    if (!all && own.length > 0) break;
  }
  return findings;
};

export const missingList = (why: 'no-code-list' | 'no-status-byte' | 'no-lamp'): Missing => ({ why });
