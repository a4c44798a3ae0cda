import { isCorner } from '../../corner.ts';
import type { Check, Scene, Tier } from '../../pack.ts';
import { combine } from '../../readings/estimate.ts';
import {
  heightBySensor,
  heightByTape,
  readCornerChannel,
  tableFrom,
  tapeBasisMissing,
} from '../height-sources.ts';
import type { Kind } from '../kind.ts';
import { measuring } from '../measuring.ts';
import { missing, newestOf, type Occasion, type Outcome } from '../outcome.ts';
import type { Subject } from '../subjects.ts';
import { readTiers, tierLines, tiersSchema } from '../tiers.ts';

/**
 * What both are measured from. From the floor the tyres would come into it, of which a sensor between body and axle
 * knows nothing.
 */
const from = 'wheel-centre';

const measure =
  (sensors: string, tapes: string, tiers: readonly Tier[]) =>
  (occasion: Occasion, { name }: Subject, scene: Scene, check: Check): Outcome => {
    const snapshot = newestOf(occasion);
    if (!isCorner(name)) throw new Error(`${name} is no corner`);
    const bySensor = heightBySensor(name, sensors, from, snapshot, scene, check);
    const byTape = heightByTape(name, tapes, snapshot, scene, check);
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

export const heightAgreement: Kind = {
  kind: 'height-agreement',
  about: "A corner's height by its sensor less its height by tape, both from the wheel's centre.",
  properties: { of: { type: 'string' }, against: { type: 'string' }, tiers: tiersSchema },
  required: ['of', 'against', 'tiers', 'in'],
  read: (raw, scope) => {
    const sensors = readCornerChannel(raw.of, 'of', 'V', scope)?.id ?? '';
    const tapes = readCornerChannel(raw.against, 'against', 'mm', scope)?.id ?? '';
    const tiers = readTiers(raw.tiers, 'mm', scope);
    return measuring({
      unit: 'mm',
      limits: tierLines(tiers, 'mm'),
      tiers,
      beforehand: ({ name }, scene) => {
        const table = isCorner(name) ? tableFrom(name, from, scene) : null;
        return table !== null && 'why' in table ? table : null;
      },
      subjects: ({ fitted }) =>
        fitted.map((corner) => ({
          name: corner,
          channels: [`${sensors}.${corner}`, `${tapes}.${corner}`],
        })),
      measure: measure(sensors, tapes, tiers),
    });
  },
};
