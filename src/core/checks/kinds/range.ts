import type { Missing } from '../../finding.ts';
import type { Reading, Snapshot } from '../../job.ts';
import type { Check, Scene, Tier } from '../../pack.ts';
import { type Estimate, spreadOfOne } from '../../readings/estimate.ts';
import type { TypedValue } from '../../readings/parse-quantity.ts';
import { type Kind, quantitySchema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import { missing, type Outcome } from '../outcome.ts';
import { readChannels, readQuantity } from '../parameters.ts';
import { type Subject, subjectsOf } from '../subjects.ts';
import { estimateOf, neverRead, take } from '../take.ts';
import { worst } from '../tier-choice.ts';
import { readTiers, tierLines, tiersSchema } from '../tiers.ts';
import { wireShare } from '../wire-share.ts';

/** A signal that jumps is judged by its worse end. */
const worseEnd = (
  reading: Extract<Reading, { kind: 'span' }>,
  key: string,
  tiers: readonly Tier[],
  snapshot: Snapshot,
  subject: Subject,
  scene: Scene,
  check: Check,
): Estimate => {
  const end = (typed: TypedValue) => {
    const estimate = estimateOf(scene, key, [typed], reading.by);
    const expanded = 2 * spreadOfOne(estimate).total;
    return { estimate, value: estimate.value, expanded };
  };
  const ends = [end(reading.low), end(reading.high)] as const;
  return worst([...ends], tiers, snapshot.state, subject, scene, check).estimate;
};

/** Why a snapshot is not known to be asleep for so many minutes, or null. */
const awakeMissing = ({ conditions }: Snapshot, wants: number): Missing | null => {
  if (conditions.asleep === null) return { why: 'sleep-not-stated', wants };
  const minutes = conditions.asleep.value * 60;
  return minutes < wants - 1e-9 ? { why: 'not-asleep', minutes, wants } : null;
};

const measure =
  (tiers: readonly Tier[], asleep: number | null) =>
  (occasion: readonly Snapshot[], subject: Subject, scene: Scene, check: Check): Outcome => {
    const [snapshot] = occasion;
    const [key] = subject.channels;
    if (!snapshot || !key) throw new Error('a range looks at one channel of one snapshot');
    const reading = snapshot.readings.get(key);
    const taken =
      reading?.kind === 'span'
        ? {
            ok: true as const,
            estimate: worseEnd(reading, key, tiers, snapshot, subject, scene, check),
            count: 1,
          }
        : take(snapshot, key, scene, check);
    if (!taken.ok) return missing(taken.missing);
    const awake = asleep === null ? null : awakeMissing(snapshot, asleep);
    if (awake) return missing(awake);
    const wire = wireShare(key, taken.estimate, scene);
    return {
      taken: true,
      value: taken.estimate.value,
      unit: taken.estimate.unit,
      spread: spreadOfOne(taken.estimate),
      scatterFrom: taken.estimate.scatterFrom,
      count: taken.count,
      tiers,
      remarks:
        reading?.kind === 'span'
          ? [{ kind: 'jumps', low: reading.low.text, high: reading.high.text }, ...wire]
          : wire,
    };
  };

export const range: Kind = {
  kind: 'range',
  about: 'A reading as typed against fixed limits, by state and layout.',
  properties: {
    of: { type: ['string', 'array'], items: { type: 'string' } },
    /** How long everything must have been asleep. */
    asleep: quantitySchema,
    tiers: tiersSchema,
  },
  required: ['of', 'tiers', 'in'],
  read: (raw, scope) => {
    const channels = readChannels(raw.of, ['of'], scope);
    const unit = channels[0]?.unit ?? 'V';
    const tiers = readTiers(raw.tiers, unit, scope);
    const asleep = raw.asleep === undefined ? null : readQuantity(raw.asleep, 'min', ['asleep'], scope);
    return measuring({
      unit,
      limits: tierLines(tiers, unit),
      tiers,
      beforehand: neverRead,
      subjects: (shape, wasRead) => {
        const subjects: Subject[] = [];
        for (const { id } of channels) subjects.push(...subjectsOf(shape, wasRead, id));
        return subjects;
      },
      measure: measure(tiers, asleep),
    });
  },
};
