import type { Snapshot } from '../../job.ts';
import type { CheckContext } from '../check-context.ts';
import type { Occasion } from '../outcome.ts';
import { disturbedBetween } from './runs.ts';

/** How long two snapshots of one session lie apart at most, milliseconds. */
export const sessionSpan = 2 * 3_600_000;

/**
 * Pairs of neighbouring snapshots, oldest first, that belong to one session: close in time, and with no work on what is
 * read between them.
 *
 * @param snapshots oldest first, of which every one has what is wanted
 */
export const sessionPairs = (
  snapshots: readonly Snapshot[],
  keys: readonly string[],
  context: CheckContext,
): Occasion[] =>
  snapshots.slice(1).flatMap((after, index) => {
    const before = snapshots[index];
    if (!before || after.stamp.at - before.stamp.at > sessionSpan) return [];
    return disturbedBetween(context, keys, before, after) ? [] : [[before, after]];
  });
