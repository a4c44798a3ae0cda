import { isCorner } from '../../corner.ts';
import type { Check } from '../../pack.ts';
import { combine } from '../../readings/estimate.ts';
import type { CheckContext } from '../check-context.ts';
import {
  heightBySensor,
  heightByTape,
  readCornerChannel,
  tableFrom,
  tapeBasisMissing,
} from '../height-sources.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf, type Occasion, type Outcome } from '../outcome.ts';
import type { Subject } from '../subjects.ts';
import { readTiers, tiersSchema } from '../tiers.ts';

/**
 * What both heights are measured from. Heights from the floor include the tyres, which a sensor between body and axle
 * does not see.
 */
const from = 'wheel-centre';

interface HeightAgreement extends Measured {
  readonly sensors: string;
  readonly tapes: string;
}

const measure = (
  occasion: Occasion,
  { name }: Subject,
  context: CheckContext,
  check: Check,
  { sensors, tapes, tiers }: HeightAgreement,
): Outcome => {
  const snapshot = newestOf(occasion);
  if (!isCorner(name)) throw new Error(`${name} is no corner`);
  const bySensor = heightBySensor(name, sensors, from, snapshot, context, check);
  const byTape = heightByTape(name, tapes, snapshot, context, check);
  if (!bySensor.ok) return missing(bySensor.missing);
  if (!byTape.ok) return missing(byTape.missing);
  const basis = tapeBasisMissing(snapshot, from);
  if (basis) return missing(basis);
  const { height, term, extrapolated } = bySensor.value;
  const tape = byTape.value;
  const inVolts = Math.abs(term.sensitivity) * term.estimate.scatter;
  const finer = inVolts >= tape.term.estimate.scatter ? bySensor.value : tape;
  return {
    taken: true,
    value: height - tape.height,
    unit: 'mm',
    spread: {
      ...combine([term, { ...tape.term, sensitivity: -1 }]),
      // Advice on reading finer is about the coarser of the two, in its own unit.
      perReading: { sensitivity: Math.abs(finer.term.sensitivity), unit: finer.term.estimate.unit },
    },
    scatterFrom: finer.term.estimate.scatterFrom,
    count: finer.taken.count,
    tiers,
    remarks: extrapolated ? [{ kind: 'extrapolated', corners: [name] }] : [],
  };
};

export const heightAgreement = measuring<HeightAgreement>({
  kind: 'height-agreement',
  about: "A corner's height by its sensor less its height by tape, both from the wheel's centre.",
  properties: { of: { type: 'string' }, against: { type: 'string' }, tiers: tiersSchema },
  required: ['of', 'against', 'tiers', 'in'],
  read: (raw, scope) => ({
    unit: 'mm',
    sensors: readCornerChannel(raw.of, 'of', 'V', scope)?.id ?? '',
    tapes: readCornerChannel(raw.against, 'against', 'mm', scope)?.id ?? '',
    tiers: readTiers(raw.tiers, 'mm', scope),
  }),
  beforehand: ({ name }, context) => {
    const table = isCorner(name) ? tableFrom(name, from, context) : null;
    return table !== null && 'why' in table ? table : null;
  },
  subjects: ({ sensors, tapes }, { fitted }) =>
    fitted.map((corner) => ({
      name: corner,
      channels: [`${sensors}.${corner}`, `${tapes}.${corner}`],
    })),
  measure,
});
