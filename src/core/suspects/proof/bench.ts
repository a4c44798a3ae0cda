import type { Axle, Corner } from '../../corner.ts';
import { fittedBy, type Layout } from '../../job.ts';
import type { Pack } from '../../pack.ts';
import { groupInstances } from '../evidence/group-instances.ts';
import { chancesUnder, groupTable } from '../evidence/group-row.ts';
import { type Hypothesis, hypothesesOf, usualShare, variantsOf } from '../hypotheses.ts';
import type { OutcomeTable } from '../information.ts';
import type { EvidenceGroup } from '../model.ts';
import { outcomeTable } from '../outcome-table.ts';
import { overHypotheses } from '../over-hypotheses.ts';
import { type Probing, probingsOf } from '../recorded-tests.ts';

/** A pack on one layout: who could be at fault, and all that could ever be found out. */
export interface Bench {
  readonly layout: Layout;
  readonly hypotheses: readonly Hypothesis[];
  /** A row for each value of the group, in the order of its space. */
  readonly groups: readonly { readonly group: EvidenceGroup; readonly table: OutcomeTable }[];
  /** A row for each outcome of the test. */
  readonly probings: readonly { readonly probing: Probing; readonly table: OutcomeTable }[];
}

/**
 * A pack on a layout, with every corner fitted that the layout has.
 *
 * @returns null where the layout has none of the pack's suspects
 */
export const benchOf = (pack: Pack, layout: Layout): Bench | null => {
  const vehicle = { layout, fitted: fittedBy[layout] };
  const share = pack.suspectTerms?.somethingElse ?? usualShare;
  const hypotheses = hypothesesOf(pack.suspects, vehicle, share);
  if (hypotheses.length === 0) return null;
  const variants = variantsOf(hypotheses, vehicle.fitted);
  return {
    layout,
    hypotheses,
    groups: groupInstances(pack.evidence, vehicle.fitted).map((group) => ({
      group,
      table: overHypotheses(groupTable(group, chancesUnder(group, variants)), variants, hypotheses.length),
    })),
    probings: probingsOf(pack.tests, { vehicle }).map((probing) => ({
      probing,
      table: overHypotheses(outcomeTable(probing, variants), variants, hypotheses.length),
    })),
  };
};

/** The corner that stands for all: every layout has it. */
export const sampleCorner: Corner = 'LR';
export const sampleAxle: Axle = 'rear';
