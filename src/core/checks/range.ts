import type { Snapshot } from '../job.ts';
import type { Check, Scene, Tier } from '../pack.ts';
import { combine } from '../readings/estimate.ts';
import { margin } from '../readings/verdict.ts';
import type { Kind } from './kind.ts';
import { fittingTiers, measuring, missing, type Outcome, type Subject, subjectsOf } from './measuring.ts';
import { readChannels } from './parameters.ts';
import { estimateOf, take, unitOf } from './take.ts';
import { readTiers, tierLines, tiersSchema } from './tiers.ts';

/** A signal that jumps is judged by the end that comes nearer to a limit, or goes further beyond one. */
const worseEnd = (
  scene: Scene,
  key: string,
  reading: Extract<ReturnType<Snapshot['readings']['get']>, { kind: 'span' }>,
  tiers: readonly Tier[],
) => {
  const [low, high] = [reading.low, reading.high].map((end) => estimateOf(scene, key, [end], reading.by));
  const room = (value: number): number =>
    Math.min(...tiers.map(({ limits }) => margin(value, limits) ?? Number.POSITIVE_INFINITY));
  if (!low || !high) throw new Error('a span has two ends');
  return room(low.value) < room(high.value) ? low : high;
};

const measure =
  (tiers: readonly Tier[]) =>
  (occasion: readonly Snapshot[], subject: Subject, scene: Scene, check: Check): Outcome => {
    const [snapshot] = occasion;
    const [key] = subject.channels;
    if (!snapshot || !key) throw new Error('a range looks at one channel of one snapshot');
    const reading = snapshot.readings.get(key);
    const taken =
      reading?.kind === 'span'
        ? {
            ok: true as const,
            estimate: worseEnd(scene, key, reading, fittingTiers(tiers, snapshot.state, scene)),
            count: 1,
          }
        : take(snapshot, key, scene, check);
    if (!taken.ok) return missing(taken.missing);
    return {
      taken: true,
      value: taken.estimate.value,
      unit: unitOf(scene, key),
      spread: combine([{ estimate: taken.estimate, sensitivity: 1 }]),
      scatterFrom: taken.estimate.scatterFrom,
      count: taken.count,
      tiers,
    };
  };

export const range: Kind = {
  kind: 'range',
  about: 'A reading as typed against fixed limits, by state and layout.',
  properties: {
    of: { type: ['string', 'array'], items: { type: 'string' } },
    tiers: tiersSchema,
  },
  required: ['of', 'tiers', 'in'],
  read: (raw, scope) => {
    const channels = readChannels(raw.of, ['of'], scope);
    const unit = channels[0]?.unit ?? 'V';
    const tiers = readTiers(raw.tiers, unit, scope);
    return measuring({
      unit,
      limits: tierLines(tiers, unit),
      tiers,
      subjects: (scene) => channels.flatMap(({ id }) => subjectsOf(scene, id)),
      measure: measure(tiers),
    });
  },
};
