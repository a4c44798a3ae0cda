import type { Finding, Missing, Remark } from '../finding.ts';
import type { Snapshot, Weight } from '../job.ts';
import type { Check, Scene } from '../pack.ts';
import { isWork, mayFollow } from '../steps/staleness.ts';
import { baseFinding, findingId } from './finding-base.ts';

/** What a check of a code list or a lamp says of one subject. */
export interface Verdictless {
  readonly subject: string;
  readonly verdict: 'within' | 'out';
  readonly weight: Weight;
  readonly words: string | null;
  readonly remarks: readonly Remark[];
}

/**
 * A code list and a lamp depend on the whole vehicle: any work, and any clear, since they were read makes them
 * stale, failed or not. Work at the very time of reading counts as after it.
 */
const staleList = (snapshot: Snapshot, scene: Scene): boolean =>
  scene.job.log.some(
    (entry) => (isWork(entry) || entry.did === 'cleared') && mayFollow(entry, snapshot.stamp.at),
  );

/** A finding that rests on no quantity. */
export const listFinding = (
  check: Check,
  scene: Scene,
  snapshot: Snapshot,
  newest: boolean,
  said: Verdictless,
): Finding => {
  const stale = staleList(snapshot, scene);
  return {
    ...baseFinding(check, scene, said.subject),
    id: findingId(check.id, said.subject, snapshot.id),
    snapshot: snapshot.id,
    state: snapshot.state,
    channels: [],
    verdict: said.verdict,
    weight: said.weight,
    current: newest && !stale,
    stale,
    newest,
    words: said.words,
    remarks: said.remarks,
  };
};

/** Judges every snapshot that has what is wanted; the newest of them, in any state, is the current one. */
export const judgeLists = (
  check: Check,
  scene: Scene,
  has: (snapshot: Snapshot) => boolean,
  say: (snapshot: Snapshot) => readonly Verdictless[],
): Finding[] => {
  const read = scene.job.snapshots.filter(has);
  return read.flatMap((snapshot) =>
    say(snapshot).map((said) => listFinding(check, scene, snapshot, snapshot === read.at(-1), said)),
  );
};

export const missingList = (why: 'no-code-list' | 'no-status-byte' | 'no-lamp'): Missing => ({ why });
