import type { Vehicle } from '../job.ts';
import { perPacks } from '../per-packs.ts';
import { type Hypothesis, hypothesesOf, usualShare } from './hypotheses.ts';
import type { EvidenceGroup } from './model.ts';
import { type Probing, probingsOf } from './recorded-tests.ts';

/** What the packs have to say of one kind of vehicle, whatever was found on it. */
export interface Cast {
  /** Empty where the vehicle has none of the suspects. */
  readonly hypotheses: readonly Hypothesis[];
  readonly groups: readonly EvidenceGroup[];
  readonly probings: readonly Probing[];
}

const casts = perPacks(() => new Map<string, Cast>());

/**
 * Suspects, evidence and tests of packs for a vehicle, the same objects each time: what is worked out for them is kept.
 *
 * @param packs the first that says how much of something else to expect speaks for all
 */
export const castOf = (
  packs: Parameters<typeof casts>[0],
  vehicle: Pick<Vehicle, 'layout' | 'fitted'>,
): Cast => {
  const known = casts(packs);
  const name = `${vehicle.layout} ${vehicle.fitted.join(' ')}`;
  const before = known.get(name);
  if (before !== undefined) return before;
  const share = packs.map(({ suspectTerms }) => suspectTerms?.somethingElse).find((one) => one !== undefined);
  const suspects = packs.flatMap((pack) => pack.suspects);
  const cast: Cast = {
    hypotheses: hypothesesOf(suspects, vehicle, share ?? usualShare),
    groups: packs.flatMap(({ evidence }) => evidence),
    probings: probingsOf(
      packs.flatMap(({ tests }) => tests),
      { vehicle },
    ),
  };
  known.set(name, cast);
  return cast;
};
