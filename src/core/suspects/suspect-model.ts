import type { Vehicle } from '../job.ts';
import { cautionTexts, type Pack } from '../pack.ts';
import { chancesUnder } from './group-row.ts';
import { type Hypothesis, hypothesesOf, usualShare } from './hypotheses.ts';
import type { OutcomeTable } from './information.ts';
import type { EvidenceGroup } from './model.ts';
import { outcomeTable } from './outcome-table.ts';
import { type Probing, probingsOf } from './recorded-tests.ts';

/** A group of evidence, with what each hypothesis makes it show. */
export interface GroupModel {
  readonly group: EvidenceGroup;
  /** For each hypothesis P(value | hypothesis) over the values of the group's space, without slips. */
  readonly chances: readonly (readonly number[])[];
}

/** A test that the vehicle allows, with what it can find. */
export interface TestModel extends Probing {
  readonly outcomes: OutcomeTable;
  /** Texts of what to heed while doing it. */
  readonly cautions: readonly string[];
}

/** What some packs say of the suspects of one kind of vehicle, whatever was found on it. Plain data. */
export interface SuspectModel {
  /** Empty where the vehicle has none of the suspects; then the model has no groups and no tests either. */
  readonly hypotheses: readonly Hypothesis[];
  readonly groups: readonly GroupModel[];
  readonly tests: readonly TestModel[];
  /** What giving the job to somebody else costs, in the job's currency; null where no pack says. */
  readonly escalate: number | null;
}

/**
 * Works out the suspect model of some packs for a vehicle. The first pack that says how much of something else to
 * expect, and the first that says what escalating costs, speak for all.
 */
export const suspectModel = (
  packs: readonly Pack[],
  vehicle: Pick<Vehicle, 'layout' | 'fitted'>,
): SuspectModel => {
  const share = packs.map(({ suspectTerms }) => suspectTerms?.somethingElse).find((one) => one !== undefined);
  const escalate = packs.map(({ suspectTerms }) => suspectTerms?.escalate).find((one) => one != null) ?? null;
  const suspects = packs.flatMap((pack) => pack.suspects);
  const hypotheses = hypothesesOf(suspects, vehicle, share ?? usualShare);
  if (hypotheses.length === 0) return { hypotheses, groups: [], tests: [], escalate };
  return {
    hypotheses,
    escalate,
    groups: packs
      .flatMap(({ evidence }) => evidence)
      .map((group) => ({ group, chances: chancesUnder(group, hypotheses) })),
    tests: packs.flatMap(({ tests, cautions }) =>
      probingsOf(tests, { vehicle }).map((probing) => ({
        ...probing,
        outcomes: outcomeTable(probing, hypotheses),
        cautions: cautionTexts(probing.test.cautions, cautions),
      })),
    ),
  };
};
