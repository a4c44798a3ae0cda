import { type Corner, corners } from '../corner.ts';
import type { Remark } from '../finding.ts';
import type { Snapshot, Vehicle, Weight } from '../job.ts';
import type { Check, Rule, Scene, Tier } from '../pack.ts';
import { combine } from '../readings/estimate.ts';
import type { UnitName } from '../readings/units.ts';
import type { KindScope, Schema } from './kind.ts';
import { measuring } from './measuring.ts';
import { missing, newestOf, type Outcome } from './outcome.ts';
import { readChannel, readQuantity } from './parameters.ts';
import type { Subject } from './subjects.ts';
import { neverRead, takeAll, unitOf } from './take.ts';
import { readTiers, tierLines, tiersSchema } from './tiers.ts';

/** A weighted sum over corners, and the subject that it is about. */
export interface Contrast {
  readonly subject: string;
  readonly weights: Partial<Readonly<Record<Corner, number>>>;
}

const weightSchema: Schema = { enum: ['hold', 'look', 'note'] };

/** Parameters of the checks that compare corners with one another. */
export const contrastProperties: Readonly<Record<string, Schema>> = {
  of: { type: 'string' },
  /** Nominal reference: a falling sensor counts as this less its volts. */
  reference: { type: ['string', 'number'], 'x-expected': 'a quantity such as 5 V' },
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
  params: { sense: Weight | undefined; gain: Weight | undefined },
): { remarks: Remark[]; cap: Weight | undefined } => {
  const remarks: Remark[] = [];
  const caps: Weight[] = [];
  if (params.sense && !used.every((corner) => vehicle.sensorSense?.[corner])) {
    remarks.push({ kind: 'sense-not-stated' });
    caps.push(params.sense);
  }
  if (params.gain && !vehicle.sensorGainEqual) {
    remarks.push({ kind: 'gain-not-stated' });
    caps.push(params.gain);
  }
  return { remarks, cap: lightest(caps) };
};

interface Parts {
  readonly contrasts: readonly Contrast[];
  readonly channel: string;
  readonly unit: UnitName;
  readonly reference: number | null;
  readonly sense: Weight | undefined;
  readonly gain: Weight | undefined;
  readonly tiers: readonly Tier[];
}

const usedCorners = (contrast: Contrast): Corner[] => corners.filter((corner) => contrast.weights[corner]);

const measureContrast = (
  parts: Parts,
  snapshot: Snapshot,
  subject: Subject,
  scene: Scene,
  check: Check,
): Outcome => {
  const contrast = parts.contrasts.find((one) => one.subject === subject.name);
  if (!contrast) throw new Error(`no contrast for ${subject.name}`);
  const used = usedCorners(contrast);
  const all = takeAll(snapshot, subject.channels, scene, check);
  if (!all.ok) return missing(all.missing);
  const terms = all.taken.map(({ estimate }, index) => {
    const corner = used[index] ?? 'LF';
    const weight = contrast.weights[corner] ?? 0;
    const falling = parts.reference !== null && scene.job.vehicle.sensorSense?.[corner] === 'falling';
    // Reference less volts: the slope turns, so a common offset adds up instead of cancelling.
    const value = falling ? (parts.reference ?? 0) - estimate.value : estimate.value;
    return { estimate, sensitivity: falling ? -weight : weight, part: weight * value };
  });
  const { remarks, cap } = allowances(scene.job.vehicle, used, parts);
  const noisiest = all.taken.reduce((a, b) => (b.estimate.scatter > a.estimate.scatter ? b : a));
  return {
    taken: true,
    value: terms.reduce((sum, term) => sum + term.part, 0),
    unit: unitOf(scene, subject.channels[0] ?? ''),
    spread: combine(terms),
    scatterFrom: noisiest.estimate.scatterFrom,
    count: noisiest.count,
    tiers: parts.tiers,
    remarks,
    ...(cap && { cap }),
  };
};

/** Reads the shared parameters and makes the rule for one set of contrasts. */
export const readContrast = (
  raw: Readonly<Record<string, unknown>>,
  contrasts: readonly Contrast[],
  scope: KindScope,
): Rule => {
  const channel = readChannel(raw.of, ['of'], scope);
  const unit = channel?.unit ?? 'V';
  if (channel && channel.per !== 'corner') {
    const message = `${channel.id} is not read at each corner`;
    scope.flaw({ code: 'wrong-value', path: ['of'], message, hint: 'name a channel with per: corner' });
  }
  const tiers = readTiers(raw.tiers, unit, scope);
  const parts: Parts = {
    contrasts,
    channel: channel?.id ?? '',
    unit,
    reference: raw.reference === undefined ? null : readQuantity(raw.reference, unit, ['reference'], scope),
    sense: raw['without-sense'] as Weight | undefined,
    gain: raw['without-equal-gain'] as Weight | undefined,
    tiers,
  };
  return measuring({
    unit,
    limits: tierLines(tiers, unit),
    tiers,
    beforehand: neverRead,
    subjects: ({ fitted }) =>
      contrasts
        .filter((contrast) => usedCorners(contrast).every((corner) => fitted.includes(corner)))
        .map((contrast) => ({
          name: contrast.subject,
          channels: usedCorners(contrast).map((corner) => `${parts.channel}.${corner}`),
        })),
    measure: (occasion, subject, scene, check) =>
      measureContrast(parts, newestOf(occasion), subject, scene, check),
  });
};
