import type { Vehicle } from '../job.ts';
import { cautionTexts, type Pack } from '../pack.ts';
import { groupInstances } from './evidence/group-instances.ts';
import { chancesUnder } from './evidence/group-row.ts';
import { type Hypothesis, hypothesesOf, usualShare, type Variant, variantsOf } from './hypotheses.ts';
import type { OutcomeTable } from './information.ts';
import { inspectionsOf } from './inspections.ts';
import type { EvidenceGroup, Suspect, SuspectTerms } from './model.ts';
import { outcomeTable } from './outcome-table.ts';
import { type Probing, probingsOf } from './recorded-tests.ts';

/** A group of evidence, with what each hypothesis makes it show. */
export interface GroupModel {
  readonly group: EvidenceGroup;
  /** For each variant P(value | variant) over the values of the group's space, without slips. */
  readonly chances: readonly (readonly number[])[];
  /** The same for readings that were taken while levelling was active. */
  readonly levelling: readonly (readonly number[])[];
}

/** A test that the vehicle allows, with what it can find. */
export interface TestModel extends Probing {
  /** A column for each variant. */
  readonly outcomes: OutcomeTable;
  /** Texts of what to heed while doing it. */
  readonly cautions: readonly string[];
}

/** What some packs say of the suspects of one kind of vehicle, whatever was found on it. Plain data. */
export interface SuspectModel {
  /** Empty where the vehicle has none of the suspects; then the model has no groups and no tests either. */
  readonly hypotheses: readonly Hypothesis[];
  /** Every way in which each of them may be so, in their order. */
  readonly variants: readonly Variant[];
  readonly groups: readonly GroupModel[];
  readonly tests: readonly TestModel[];
  /** What the first pack with suspects says of costs. */
  readonly terms: Pick<SuspectTerms, 'escalate' | 'usualRate' | 'downtime'>;
}

/** What an hour of waiting costs where no pack says. Judgement, from memory. */
export const usualDowntime = 10;

/** What to heed while looking at a component: what its packs say of the tests that would confirm it. */
const cautionsOfLook = ({ test }: Probing, packs: readonly Pack[]): readonly string[] => {
  const [component] = test.depends ?? [];
  const texts = packs.flatMap(({ suspects, tests, cautions }) => {
    const confirming = suspects
      .filter((suspect) => suspect.component === component)
      .flatMap(({ confirm }) => confirm.map((one) => one.test));
    return tests
      .filter(({ id }) => confirming.includes(id))
      .flatMap((one) => cautionTexts(one.cautions, cautions));
  });
  return [...new Set(texts)];
};

/** Whether any suspect shows something else in a group while levelling works. */
const mattersLevelling = ({ base }: EvidenceGroup, suspects: readonly Suspect[]): boolean =>
  suspects.some(({ expects, modes }) =>
    [...expects, ...modes.flatMap((mode) => mode.expects)].some(
      (sign) => sign.group === base && sign.levelling !== null,
    ),
  );

/**
 * Works out the suspect model of some packs for a vehicle. The first pack that says how much of something else to
 * expect, and the first that says what escalating, work or waiting cost, speak for all.
 */
export const suspectModel = (
  packs: readonly Pack[],
  vehicle: Pick<Vehicle, 'layout' | 'fitted'>,
): SuspectModel => {
  const said = packs.flatMap(({ suspectTerms }) => suspectTerms ?? []);
  const share = said.map(({ somethingElse }) => somethingElse).find((one) => one !== undefined);
  const terms = {
    escalate: said.map(({ escalate }) => escalate).find((one) => one !== null) ?? null,
    usualRate: said.map(({ usualRate }) => usualRate).find((one) => one !== null) ?? null,
    downtime: said[0]?.downtime ?? usualDowntime,
  };
  const suspects = packs.flatMap((pack) => pack.suspects);
  const hypotheses = hypothesesOf(suspects, vehicle, share ?? usualShare);
  if (hypotheses.length === 0) return { hypotheses, variants: [], groups: [], tests: [], terms };
  const variants = variantsOf(hypotheses, vehicle.fitted);
  const groups = groupInstances(
    packs.flatMap(({ evidence }) => evidence),
    vehicle.fitted,
  );
  const modelled = (probing: Probing, cautions: readonly string[]): TestModel => ({
    ...probing,
    outcomes: outcomeTable(probing, variants),
    cautions,
  });
  return {
    hypotheses,
    variants,
    terms,
    groups: groups.map((group) => {
      const chances = chancesUnder(group, variants);
      return {
        group,
        chances,
        levelling: mattersLevelling(group, suspects) ? chancesUnder(group, variants, 'active') : chances,
      };
    }),
    tests: [
      ...packs.flatMap(({ tests, cautions }) =>
        probingsOf(tests, { vehicle }).map((probing) =>
          modelled(probing, cautionTexts(probing.test.cautions, cautions)),
        ),
      ),
      ...inspectionsOf(hypotheses).map((probing) => modelled(probing, cautionsOfLook(probing, packs))),
    ],
  };
};
