import type { Snapshot } from '../job.ts';
import type { Estimate } from '../readings/estimate.ts';
import { rectangular, rootSumSquares } from '../readings/statistics.ts';
import type { Role } from './over-time/runs.ts';

/** In other states the vehicle may have levelled itself, unless that was switched off. */
export const standingRole =
  (fitting: readonly Snapshot[], key: string) =>
  (snapshot: Snapshot): Role => {
    if (fitting.includes(snapshot)) return snapshot.readings.has(key) ? 'point' : 'passes';
    return snapshot.conditions.words.levelling === 'disabled' && snapshot.state !== 'driving'
      ? 'passes'
      : 'breaks';
  };

/**
 * A tape is laid anew each time, so its fixed error is another one at each reading: it does not cancel, as a gauge's
 * does that stays where it is.
 */
export const laidAnew = (estimate: Estimate): Estimate => ({
  ...estimate,
  scatter: rootSumSquares([estimate.scatter, rectangular(estimate.offset)]),
  offset: 0,
});
