import type { Missing } from '../../finding.ts';
import type { Instant, Job, Reading, Snapshot } from '../../job.ts';
import type { Check, Tier } from '../../pack.ts';
import { type Estimate, spreadOfOne } from '../../readings/estimate.ts';
import type { TypedValue } from '../../readings/parse-quantity.ts';
import { type QuantityKind, quantityOf } from '../../readings/units.ts';
import type { CheckContext } from '../check-context.ts';
import { quantitySchema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, type Outcome } from '../outcome.ts';
import { readChannels, readQuantity } from '../parameters.ts';
import { type Subject, subjectsOf } from '../subjects.ts';
import { estimateOf, neverRead, take } from '../take.ts';
import { worst } from '../tier-choice.ts';
import { readTiers, tiersSchema } from '../tiers.ts';
import { wireShare } from '../wire-share.ts';

/** A signal that jumps is judged by its worse end. */
const worseEnd = (
  reading: Extract<Reading, { kind: 'span' }>,
  key: string,
  tiers: readonly Tier[],
  snapshot: Snapshot,
  subject: Subject,
  context: CheckContext,
  check: Check,
): Estimate => {
  const end = (typed: TypedValue) => {
    const estimate = estimateOf(context, key, [typed], reading.by);
    const expanded = 2 * spreadOfOne(estimate).total;
    return { estimate, value: estimate.value, expanded };
  };
  const ends = [end(reading.low), end(reading.high)] as const;
  return worst([...ends], tiers, snapshot.state, subject, context, check).estimate;
};

interface Range extends Measured {
  readonly channels: readonly string[];
  /** Minutes that everything must have been asleep; null where that does not matter. */
  readonly asleep: number | null;
}

/** Whether the battery was taken off before an instant and not put back: by the log, or as a turned key shows. */
const isBatteryOff = (at: Instant, { log, snapshots }: Job): boolean => {
  const last = log.findLast(
    ({ did, what, stamp }) =>
      stamp.at <= at && (did === 'disconnected' || did === 'completed') && what === 'battery',
  );
  return (
    last?.did === 'disconnected' &&
    !snapshots.some(({ state, stamp }) => state !== 'rest' && stamp.at > last.stamp.at && stamp.at <= at)
  );
};

/**
 * Nothing is awake while the battery is off, which a resistance may be read by. A current read with its lead off is no
 * such case: it wakes everything when the meter closes the circuit.
 *
 * @returns why a snapshot is not known to be asleep for so many minutes, or null
 */
const awakeMissing = (
  { conditions, stamp }: Snapshot,
  wants: number,
  quantity: QuantityKind,
  { job }: CheckContext,
): Missing | null => {
  if (quantity === 'resistance' && isBatteryOff(stamp.at, job)) return null;
  if (conditions.asleep === null) return { why: 'sleep-not-stated', wants };
  const minutes = conditions.asleep.value * 60;
  return minutes < wants - 1e-9 ? { why: 'not-asleep', minutes, wants } : null;
};

const measure = (
  occasion: readonly Snapshot[],
  subject: Subject,
  context: CheckContext,
  check: Check,
  { tiers, asleep }: Range,
): Outcome => {
  const [snapshot] = occasion;
  const [key] = subject.channels;
  if (!snapshot || !key) throw new Error('a range looks at one channel of one snapshot');
  const reading = snapshot.readings.get(key);
  const taken =
    reading?.kind === 'span'
      ? {
          ok: true as const,
          estimate: worseEnd(reading, key, tiers, snapshot, subject, context, check),
          count: 1,
        }
      : take(snapshot, key, context, check);
  if (!taken.ok) return missing(taken.missing);
  const awake =
    asleep === null ? null : awakeMissing(snapshot, asleep, quantityOf(taken.estimate.unit), context);
  if (awake) return missing(awake);
  const wire = wireShare(key, taken.estimate, context);
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

export const range = measuring<Range>({
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
    return {
      unit,
      tiers: readTiers(raw.tiers, unit, scope),
      channels: channels.map(({ id }) => id),
      asleep: raw.asleep === undefined ? null : readQuantity(raw.asleep, 'min', ['asleep'], scope),
    };
  },
  beforehand: neverRead,
  subjects: ({ channels }, shape, wasRead) => {
    const subjects: Subject[] = [];
    for (const id of channels) subjects.push(...subjectsOf(shape, wasRead, id));
    return subjects;
  },
  measure,
});
