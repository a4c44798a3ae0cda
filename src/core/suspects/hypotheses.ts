import { axleOf, axles, type Corner, isAxle, isCorner } from '../corner.ts';
import type { Vehicle } from '../job.ts';
import { keyOf, type Per, type Place } from '../key.ts';
import type { Mode, Sign, Suspect } from './model.ts';

/** One thing that could be at fault. */
export interface Hypothesis {
  /** `sensor.LR`, `sensor-ground.front`, `control-module`, `something-else`. */
  readonly id: string;
  readonly title: string;
  /** The corner or axle where it is; null for the whole vehicle. */
  readonly place: Place | null;
  /** Null for something else. */
  readonly suspect: Suspect | null;
  readonly prior: number;
}

/** A hypothesis in one of the ways in which it may be so. */
export interface Variant extends Hypothesis {
  /** Place of the hypothesis among the others. */
  readonly of: number;
  /** Null where the suspect fails in one way only. */
  readonly mode: Mode | null;
  /** Of its part of the prior, where it is so at one of several corners. */
  readonly part: number;
}

export const somethingElse = 'something-else';

/** The share of something else where a pack does not say how much of it to expect. */
export const usualShare = 0.07;

/** The places where something exists so often on a vehicle with these corners; null for the whole vehicle. */
export const fittedPlaces = (per: Per, fitted: readonly Corner[]): readonly (Place | null)[] => {
  const own = (['front', 'rear'] as const).filter((axle) => axles[axle].some((one) => fitted.includes(one)));
  if (per === 'corner') return fitted;
  if (per === 'axle') return own;
  return per === 'both' ? [null, ...own] : [null];
};

/** Whether two places have to do with each other: they are one, or one lies on the other. */
export const concern = (one: Place | null, other: Place | null): boolean => {
  if (one === null || other === null || one === other) return true;
  if (isCorner(one) && isAxle(other)) return axleOf(one) === other;
  return isAxle(one) && isCorner(other) && axleOf(other) === one;
};

const titleAt = (title: string, place: Place | null): string =>
  place === null ? title : `${title}, ${place}`;

/**
 * Suspects as hypotheses: one a fitted corner or axle where they are so, and something else beside them all.
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
      fittedPlaces(suspect.per, fitted).map((place) => ({
        id: keyOf(suspect.id, place),
        title: titleAt(suspect.title, place),
        place,
        suspect,
        prior: suspect.prior,
      })),
    );
  const total = own.reduce((sum, { prior }) => sum + prior, 0);
  if (total === 0) return [];
  return [
    ...own.map((one) => ({ ...one, prior: ((1 - share) * one.prior) / total })),
    { id: somethingElse, title: 'something else', place: null, suspect: null, prior: share },
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

/** Every way in which each hypothesis may be so, with its share of the prior, in the order of the hypotheses. */
export const variantsOf = (hypotheses: readonly Hypothesis[], fitted: readonly Corner[]): Variant[] =>
  hypotheses.flatMap((one, of): Variant[] => {
    const modes = one.suspect?.modes ?? [];
    if (modes.length === 0) return [{ ...one, of, mode: null, part: 1 }];
    return modes.flatMap((mode) => {
      const places = mode.perCorner && one.place === null ? fitted : [one.place];
      const part = mode.share / places.length;
      return places.map((place) => ({ ...one, of, mode, place, part, prior: one.prior * part }));
    });
  });

/** What a suspect shows in the way in which it fails. */
export const signsOf = ({ suspect, ...one }: Hypothesis | Variant): readonly Sign[] => {
  const general = suspect?.expects ?? [];
  const mode = 'mode' in one ? one.mode : null;
  if (mode === null) return general;
  const own = new Set(mode.expects.map(({ group }) => group));
  return [...mode.expects, ...general.filter(({ group }) => !own.has(group))];
};
