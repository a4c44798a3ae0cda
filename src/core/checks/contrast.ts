import { type Corner, corners } from '../corner.ts';
import type { Remark } from '../finding.ts';
import type { Snapshot, Vehicle, Weight } from '../job.ts';
import type { Check } from '../pack.ts';
import { combine } from '../readings/estimate.ts';
import type { CheckContext } from './check-context.ts';
import { type Kind, quantitySchema, type Schema } from './kind.ts';
import { measuring } from './measuring.ts';
import type { Measured } from './measuring-parts.ts';
import { missing, newestOf, type Outcome } from './outcome.ts';
import { readChannel, readQuantity } from './parameters.ts';
import type { Subject } from './subjects.ts';
import { neverRead, takeAll, unitOf } from './take.ts';
import { readTiers, tiersSchema } from './tiers.ts';

/** A weighted sum over corners, and the subject that it is about. */
export interface Contrast {
  readonly subject: string;
  readonly weights: Partial<Readonly<Record<Corner, number>>>;
}

const weightSchema: Schema = { enum: ['hold', 'look', 'note'] };

/** Parameters of the checks that compare corners with one another. */
const contrastProperties: Readonly<Record<string, Schema>> = {
  of: { type: 'string' },
  /** Nominal reference: a falling sensor counts as this less its volts. */
  reference: quantitySchema,
  'without-sense': weightSchema,
  'without-equal-gain': weightSchema,
  tiers: tiersSchema,
};

const lightest = (weights: readonly Weight[]): Weight | undefined =>
  (['note', 'look', 'hold'] as const).find((weight) => weights.includes(weight));

/** Remarks and the weight cap that follow from what the job does not say of its sensors. */
const allowances = (
  vehicle: Vehicle,
  used: readonly Corner[],
  { withoutSense, withoutGain }: ContrastParameters,
): { remarks: Remark[]; cap: Weight | undefined } => {
  const remarks: Remark[] = [];
  const caps: Weight[] = [];
  if (withoutSense && !used.every((corner) => vehicle.sensorSense?.[corner])) {
    remarks.push({ kind: 'sense-not-stated' });
    caps.push(withoutSense);
  }
  if (withoutGain && !vehicle.sensorGainEqual) {
    remarks.push({ kind: 'gain-not-stated' });
    caps.push(withoutGain);
  }
  return { remarks, cap: lightest(caps) };
};

interface ContrastParameters extends Measured {
  readonly channel: string;
  readonly reference: number | null;
  /** The heaviest weight where the job does not say which way the sensors turn, or that they gain alike. */
  readonly withoutSense: Weight | null;
  readonly withoutGain: Weight | null;
}

const usedCorners = (contrast: Contrast): Corner[] => corners.filter((corner) => contrast.weights[corner]);

const measureContrast = (
  contrasts: readonly Contrast[],
  snapshot: Snapshot,
  subject: Subject,
  context: CheckContext,
  check: Check,
  parameters: ContrastParameters,
): Outcome => {
  const contrast = contrasts.find((one) => one.subject === subject.name);
  if (!contrast) throw new Error(`no contrast for ${subject.name}`);
  const used = usedCorners(contrast);
  const all = takeAll(snapshot, subject.channels, context, check);
  if (!all.ok) return missing(all.missing);
  const terms = all.taken.map(({ estimate }, index) => {
    const corner = used[index] ?? 'LF';
    const weight = contrast.weights[corner] ?? 0;
    const falling = parameters.reference !== null && context.job.vehicle.sensorSense?.[corner] === 'falling';
    // Reference less volts: the slope turns, so a common offset adds up instead of cancelling.
    const value = falling ? (parameters.reference ?? 0) - estimate.value : estimate.value;
    return { estimate, sensitivity: falling ? -weight : weight, part: weight * value };
  });
  const { remarks, cap } = allowances(context.job.vehicle, used, parameters);
  const noisiest = all.taken.reduce((a, b) => (b.estimate.scatter > a.estimate.scatter ? b : a));
  return {
    taken: true,
    value: terms.reduce((sum, term) => sum + term.part, 0),
    unit: unitOf(context, subject.channels[0] ?? ''),
    spread: combine(terms),
    scatterFrom: noisiest.estimate.scatterFrom,
    count: noisiest.count,
    tiers: parameters.tiers,
    remarks,
    ...(cap && { cap }),
  };
};

/** Makes the kind that judges one set of contrasts. */
export const contrasting = (kind: string, about: string, contrasts: readonly Contrast[]): Kind =>
  measuring<ContrastParameters>({
    kind,
    about,
    properties: contrastProperties,
    required: ['of', 'tiers', 'in'],
    read: (raw, scope) => {
      const channel = readChannel(raw.of, ['of'], scope);
      const unit = channel?.unit ?? 'V';
      if (channel && channel.per !== 'corner') {
        const message = `${channel.id} is not read at each corner`;
        scope.flaw({ code: 'wrong-value', path: ['of'], message, hint: 'name a channel with per: corner' });
      }
      const tiers = readTiers(raw.tiers, unit, scope);
      return {
        unit,
        tiers,
        channel: channel?.id ?? '',
        reference:
          raw.reference === undefined ? null : readQuantity(raw.reference, unit, ['reference'], scope),
        withoutSense: (raw['without-sense'] ?? null) as Weight | null,
        withoutGain: (raw['without-equal-gain'] ?? null) as Weight | null,
      };
    },
    beforehand: neverRead,
    subjects: ({ channel }, { fitted }) =>
      contrasts
        .filter((contrast) => usedCorners(contrast).every((corner) => fitted.includes(corner)))
        .map((contrast) => ({
          name: contrast.subject,
          channels: usedCorners(contrast).map((corner) => `${channel}.${corner}`),
        })),
    measure: (occasion, subject, context, check, parameters) =>
      measureContrast(contrasts, newestOf(occasion), subject, context, check, parameters),
  });
