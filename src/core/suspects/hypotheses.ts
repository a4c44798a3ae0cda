import type { Corner } from '../corner.ts';
import type { Vehicle } from '../job.ts';
import { keyOf } from '../key.ts';
import type { Suspect } from './model.ts';

/** One thing that could be the fault; exactly one of them is. */
export interface Hypothesis {
  /** `sensor.LR`, `control-module`, `something-else`. */
  readonly id: string;
  readonly title: string;
  readonly corner: Corner | null;
  /** Null for something else. */
  readonly suspect: Suspect | null;
  readonly prior: number;
}

export const somethingElse = 'something-else';

/** The share of something else where a pack does not say how much of it to expect. */
export const usualShare = 0.07;

/**
 * Suspects as hypotheses: one a fitted corner where they are per corner, and something else beside them all.
 *
 * @param share of all priors that belongs to something else, above 0 and below 1
 * @returns hypotheses whose priors sum to 1; empty where the vehicle has none of the suspects
 */
export const hypothesesOf = (
  suspects: readonly Suspect[],
  { layout, fitted }: Pick<Vehicle, 'layout' | 'fitted'>,
  share: number,
): Hypothesis[] => {
  const own = suspects
    .filter(({ layouts }) => layouts === null || layouts.includes(layout))
    .flatMap((suspect) =>
      (suspect.perCorner ? fitted : [null]).map((corner) => ({
        id: keyOf(suspect.id, corner),
        title: corner === null ? suspect.title : `${suspect.title}, ${corner}`,
        corner,
        suspect,
        prior: suspect.prior,
      })),
    );
  const total = own.reduce((sum, { prior }) => sum + prior, 0);
  if (total === 0) return [];
  return [
    ...own.map((one) => ({ ...one, prior: ((1 - share) * one.prior) / total })),
    { id: somethingElse, title: 'something else', corner: null, suspect: null, prior: share },
  ];
};

/** The mean over all that is listed, by their priors: how often something shows at all. */
export const meanOverListed = (hypotheses: readonly Hypothesis[], values: readonly number[]): number => {
  let sum = 0;
  let weight = 0;
  for (const [index, { suspect, prior }] of hypotheses.entries()) {
    if (suspect === null) continue;
    sum += prior * (values[index] ?? 0);
    weight += prior;
  }
  return weight > 0 ? sum / weight : 0;
};
