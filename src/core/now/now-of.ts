import { whenDeclined, whenGone } from './closing.ts';
import { handOn, toDecide } from './kinds/decide.ts';
import { kindsOfNow } from './kinds/index.ts';
import { none } from './kinds/none.ts';
import { repairHeldUp } from './kinds/repair.ts';
import { elsewhere, forHoldPoint } from './kinds/step.ts';
import { stop } from './kinds/stop.ts';
import type { Now } from './now.ts';
import { isForOthers, type NowGround } from './now-ground.ts';
import { readStops } from './on-stops.ts';

/** What holds the release though nothing of it can be done here: somebody has to decide. */
const stuck = (ground: NowGround): Now => {
  const reasons = ground.holdPoints.find(({ id }) => id === 'release')?.reasons ?? [];
  return toDecide([], reasons.length > 0 ? reasons : [{ kind: 'not-blamed' }], ground);
};

/** Whether a vehicle that was released is here again: something was found wrong with it since. */
const isBack = ({
  decisions: { released, passedOn },
  troubles,
  dangers,
  findings,
  job,
}: NowGround): boolean => {
  if (!released || passedOn) return false;
  const isSince = (snapshot: string | null): boolean =>
    (job.snapshots.find(({ id }) => id === snapshot)?.stamp.at ?? 0) > released.stamp.at;
  const found = new Set(dangers.map(({ finding }) => finding));
  return (
    troubles.findings.some(({ snapshot }) => isSince(snapshot)) ||
    findings.some(({ id, snapshot }) => found.has(id) && isSince(snapshot)) ||
    dangers.some(({ finding, since }) => finding === null && since > released.stamp.at)
  );
};

/**
 * The one thing to do now: the first kind that applies. A closed job wants nothing, a vehicle that has left only that
 * its file is closed, and one whose brakes share the air only that qualified people take it on.
 */
export const nowOf = (ground: NowGround): Now => {
  const over = none(ground) ?? (isBack(ground) ? null : whenGone(ground));
  if (over) return over;
  if (isForOthers(ground)) return stop(ground) ?? handOn();
  for (const { find } of kindsOfNow) {
    const now = find(ground);
    if (now) return now;
  }
  return (
    readStops(ground) ??
    forHoldPoint(ground) ??
    elsewhere(ground) ??
    repairHeldUp(ground) ??
    whenDeclined(ground) ??
    stuck(ground)
  );
};
