import type { Snapshot } from '../../job.ts';
import type { Check, Tier } from '../../pack.ts';
import type { Estimate } from '../../readings/estimate.ts';
import { instrumentNamed } from '../../readings/instruments.ts';
import type { TypedValue } from '../../readings/parse-quantity.ts';
import { rectangular, resolutionUncertainty, rootSumSquares } from '../../readings/statistics.ts';
import { convertSpan, quantityOf } from '../../readings/units.ts';
import { isRepair } from '../../steps/staleness.ts';
import type { CheckContext } from '../check-context.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf, type Outcome } from '../outcome.ts';
import { readChannels } from '../parameters.ts';
import { subjectsOf } from '../subjects.ts';
import { estimateOf, neverRead, take, unitOf } from '../take.ts';
import { readTiers, tiersSchema } from '../tiers.ts';

const spanOf = (values: readonly TypedValue[]): number => {
  const numbers = values.map(({ value }) => value);
  return Math.max(...numbers) - Math.min(...numbers);
};

/**
 * Whether a channel was read several times in this state before the last repair, and stood: then one value after it says
 * that it still does. One that jumped has to be read several times again.
 */
const stoodBefore = (
  { state, stamp }: Snapshot,
  key: string,
  { job }: CheckContext,
  tiers: readonly Tier[],
): boolean => {
  const repaired = job.log.findLast((entry) => isRepair(entry) && entry.stamp.at <= stamp.at)?.stamp.at;
  if (repaired === undefined) return false;
  const before = job.snapshots
    .filter((one) => one.state === state && one.stamp.at <= repaired)
    .flatMap(({ readings }) => readings.get(key) ?? [])
    .findLast((one) => one.kind === 'span' || (one.kind === 'values' && one.values.length > 1));
  return (
    before?.kind === 'values' &&
    tiers.every(({ limits }) => spanOf(before.values) <= (limits.high ?? Number.POSITIVE_INFINITY))
  );
};

/** Spread of repeats, or of a signal typed as low and high: the instrument's offset cancels, its scale does not. */
const spreadOf = (
  snapshot: Snapshot,
  key: string,
  context: CheckContext,
  check: Check,
  tiers: readonly Tier[],
): Outcome => {
  const reading = snapshot.readings.get(key);
  if (reading?.kind !== 'values' && reading?.kind !== 'span') {
    const taken = take(snapshot, key, context, check);
    return missing(taken.ok ? { why: 'one-reading', channel: key } : taken.missing);
  }
  const values = reading.kind === 'span' ? [reading.low, reading.high] : reading.values;
  if (values.length < 2 && !stoodBefore(snapshot, key, context, tiers))
    return missing({ why: 'one-reading', channel: key });
  const value = spanOf(values);
  const unit = unitOf(context, key);
  const instrument: Estimate = estimateOf(context, key, values, reading.by);
  const { shows } = instrumentNamed(context.job.instruments, reading.by);
  const place =
    shows && quantityOf(shows.unit) === quantityOf(unit)
      ? convertSpan(shows.value, shows.unit, unit)
      : Math.max(...values.map(({ resolution }) => resolution));
  const scatter = Math.SQRT2 * resolutionUncertainty(place);
  const accuracy = rectangular(instrument.gain * value);
  return {
    taken: true,
    value,
    unit,
    spread: { scatter, accuracy, total: rootSumSquares([scatter, accuracy]) },
    scatterFrom: 'resolution',
    count: values.length,
    tiers,
  };
};

interface Steadiness extends Measured {
  readonly channels: readonly string[];
}

export const steadiness = measuring<Steadiness>({
  kind: 'steadiness',
  about: 'The spread of repeats, or of a signal that jumps, while the vehicle stands still.',
  properties: { of: { type: ['string', 'array'], items: { type: 'string' } }, tiers: tiersSchema },
  required: ['of', 'tiers', 'in'],
  read: (raw, scope) => {
    const channels = readChannels(raw.of, ['of'], scope);
    const unit = channels[0]?.unit ?? 'V';
    return { unit, tiers: readTiers(raw.tiers, unit, scope), channels: channels.map(({ id }) => id) };
  },
  beforehand: neverRead,
  subjects: ({ channels }, shape, wasRead) => channels.flatMap((id) => subjectsOf(shape, wasRead, id)),
  measure: (occasion, subject, context, check, { tiers }) =>
    spreadOf(newestOf(occasion), subject.channels[0] ?? '', context, check, tiers),
});
