import { whenDeclined, whenGone } from './closing.ts';
import { handOn, toDecide } from './kinds/decide.ts';
import { kindsOfNow } from './kinds/index.ts';
import { none } from './kinds/none.ts';
import { elsewhere, forHoldPoint } from './kinds/step.ts';
import { stop } from './kinds/stop.ts';
import type { Now } from './now.ts';
import { isForOthers, type NowGround } from './now-ground.ts';

/** What holds the release though nothing of it can be done here: somebody has to decide. */
const stuck = (ground: NowGround): Now => {
  const reasons = ground.holdPoints.find(({ id }) => id === 'release')?.reasons ?? [];
  return toDecide([], reasons.length > 0 ? reasons : [{ kind: 'not-blamed' }], ground);
};

/**
 * The one thing to do now: the first kind that applies. A closed job wants nothing, a vehicle that has left only that
 * its file is closed, and one whose brakes share the air only that qualified people take it on.
 */
export const nowOf = (ground: NowGround): Now => {
  const over = none(ground) ?? whenGone(ground);
  if (over) return over;
  if (isForOthers(ground)) return stop(ground) ?? handOn();
  for (const { find } of kindsOfNow) {
    const now = find(ground);
    if (now) return now;
  }
  return forHoldPoint(ground) ?? elsewhere(ground) ?? whenDeclined(ground) ?? stuck(ground);
};
