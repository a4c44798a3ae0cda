import type { Missing } from '../../finding.ts';
import type { LogEntry, Snapshot } from '../../job.ts';
import type { Check } from '../../pack.ts';
import type { Estimate } from '../../readings/estimate.ts';
import { mayFollow, staleSince } from '../../steps/staleness.ts';
import type { CheckContext } from '../check-context.ts';
import type { Occasion } from '../outcome.ts';
import { take } from '../take.ts';

/** What a snapshot is to a run: one of its points, nothing, or its end. */
export type Role = 'point' | 'passes' | 'breaks';

/**
 * What could not be taken at the end of a run stands for itself: it takes the word from a good run, and leaves a bad
 * one standing.
 */
const withoutRefusedEnd = (run: readonly Snapshot[], key: string): Occasion[] => {
  const end = run.findLastIndex(({ readings }) => readings.get(key)?.kind === 'values') + 1;
  return end === 0 || end === run.length ? [run] : [run.slice(0, end), run.slice(end)];
};

/**
 * Runs of neighbouring snapshots, oldest first; a single point is a run, too, so that a check can say that it is not
 * enough.
 *
 * @param snapshots oldest first
 * @param key the channel that the points read
 * @param parted whether something between two neighbouring points ends the run all the same
 */
export const runsOf = (
  snapshots: readonly Snapshot[],
  key: string,
  role: (snapshot: Snapshot) => Role,
  parted: (before: Snapshot, after: Snapshot) => boolean = () => false,
): Occasion[] => {
  const runs: Snapshot[][] = [];
  let open: Snapshot[] | null = null;
  for (const snapshot of snapshots) {
    const is = role(snapshot);
    if (is === 'breaks') open = null;
    if (is !== 'point') continue;
    const last = open?.at(-1);
    if (open === null || (last && parted(last, snapshot))) {
      open = [];
      runs.push(open);
    }
    open.push(snapshot);
  }
  return runs.flatMap((run) => withoutRefusedEnd(run, key));
};

const droveBetween = (log: readonly LogEntry[], before: Snapshot, after: Snapshot): boolean =>
  log.some(
    (entry) => entry.did === 'drove' && mayFollow(entry, before.stamp.at) && entry.stamp.at <= after.stamp.at,
  );

/**
 * Whether the log has work on what the channels depend on, or a drive, between two snapshots. What its typed time
 * leaves open counts as between.
 */
export const disturbedBetween = (
  { job, channels }: CheckContext,
  keys: readonly string[],
  before: Snapshot,
  after: Snapshot,
): boolean => {
  const until = job.log.filter(({ stamp }) => stamp.at <= after.stamp.at);
  return staleSince(until, channels, keys, before.stamp.at) !== null || droveBetween(until, before, after);
};

export interface Point {
  readonly snapshot: Snapshot;
  readonly estimate: Estimate;
}

/**
 * The readings of a run. One inside it that jumps or could not be taken is left out, and speaks for the run where too
 * few are left.
 *
 * @param wants how many points there must be, not all of one time
 * @param condition what each of them must state, for the reason
 */
export const takePoints = (
  occasion: Occasion,
  key: string,
  context: CheckContext,
  check: Check,
  wants: number,
  condition: string | null,
):
  | { readonly ok: true; readonly points: readonly Point[] }
  | { readonly ok: false; readonly missing: Missing } => {
  const takes = occasion.map((snapshot) => ({ snapshot, taken: take(snapshot, key, context, check) }));
  const points = takes.flatMap(({ snapshot, taken }) =>
    taken.ok ? [{ snapshot, estimate: taken.estimate }] : [],
  );
  const times = new Set(points.map(({ snapshot }) => snapshot.stamp.at));
  if (points.length >= wants && times.size > 1) return { ok: true, points };
  const refused = takes.find(({ taken }) => !taken.ok)?.taken;
  if (refused && !refused.ok && (takes.length >= wants || points.length === 0))
    return { ok: false, missing: refused.missing };
  return {
    ok: false,
    missing: { why: 'too-few-points', has: points.length, wants, states: check.states, condition },
  };
};
