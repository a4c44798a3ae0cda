import type { Action } from './decision.ts';
import type { OutcomeTable } from './information.ts';

/** Below this a hypothesis is looked at with all the others that are as unlikely. */
const negligible = 0.005;

/** A smaller problem of nearly the same value: what is all but ruled out is one hypothesis, the last. */
export interface Fewer {
  readonly probabilities: readonly number[];
  /** Likelihoods of an outcome, the unlikely ones joined by their probabilities. */
  readonly table: (outcomes: OutcomeTable) => OutcomeTable;
  readonly actions: (actions: readonly Action[]) => readonly Action[];
}

/**
 * Joins hypotheses that are all but ruled out, so that looking ahead over them stays quick. What is lost by it is less
 * than their joint probability times the largest loss.
 */
export const fewer = (probabilities: readonly number[]): Fewer => {
  const places = probabilities.map((_, place) => place);
  const kept = places.filter((place) => (probabilities[place] ?? 0) >= negligible);
  const joined = places.filter((place) => (probabilities[place] ?? 0) < negligible);
  const share = joined.reduce((sum, place) => sum + (probabilities[place] ?? 0), 0);
  const mean = (values: readonly number[]): number =>
    joined.reduce((sum, place) => sum + (probabilities[place] ?? 0) * (values[place] ?? 0), 0) / share;
  const shrink = (values: readonly number[]): number[] => [
    ...kept.map((place) => values[place] ?? 0),
    ...(share > 0 ? [mean(values)] : []),
  ];
  return {
    probabilities: [...kept.map((place) => probabilities[place] ?? 0), ...(share > 0 ? [share] : [])],
    table: (outcomes) => outcomes.map(shrink),
    actions: (actions) => {
      const able = actions.filter(
        ({ losses }) => kept.some((place) => losses[place] === 0) || isFlat(losses),
      );
      return able.map(({ id, losses }) => ({ id, losses: shrink(losses) }));
    },
  };
};

/** What loses the same whatever is wrong. */
const isFlat = (losses: readonly number[]): boolean => losses.every((loss) => loss === losses[0]);
