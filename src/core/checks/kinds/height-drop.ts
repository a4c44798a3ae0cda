import type { Remark } from '../../finding.ts';
import type { Snapshot } from '../../job.ts';
import { kelvin } from '../../readings/air.ts';
import type { Estimate } from '../../readings/estimate.ts';
import { rectangular, rootSumSquares } from '../../readings/statistics.ts';
import { trendOf } from '../../readings/trend.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing } from '../outcome.ts';
import { readChannel } from '../parameters.ts';
import { heightRate, type RateUnits } from '../rate-units.ts';
import { disturbedBetween, type Role, runsOf, takePoints } from '../runs.ts';
import { type Subject, subjectsOf } from '../subjects.ts';
import { readTiers, tiersSchema } from '../tiers.ts';
import { inUnit, trendOutcome, trendPoints } from '../trend-outcome.ts';

/** Two points are enough: the uncertainty comes from the tape, not from the scatter about the line. */
const leastPoints = 2;

/** Cooling by this much, °C, is remarked on: it shortens the air column by some two per cent. */
const muchCooler = 5;

/** The vehicle may have levelled itself in other states, unless levelling was disabled, so they end a run. */
const roleIn =
  (fitting: readonly Snapshot[], key: string) =>
  (snapshot: Snapshot): Role => {
    if (fitting.includes(snapshot)) return snapshot.readings.has(key) ? 'point' : 'passes';
    return snapshot.conditions.words.levelling === 'disabled' && snapshot.state !== 'driving'
      ? 'passes'
      : 'breaks';
  };

/** Whether load or floor changed between two snapshots: that moves the body without any loss of air. */
const stoodOtherwise = (before: Snapshot, after: Snapshot): boolean =>
  (['load', 'floor'] as const).some((name) => {
    const [was, is] = [before.conditions.words[name], after.conditions.words[name]];
    return was !== undefined && is !== undefined && was !== is;
  });

/**
 * A tape is laid anew for each reading, so its fixed error differs each time and does not cancel, unlike that of a gauge
 * that stays connected.
 */
const laidAnew = (estimate: Estimate): Estimate => ({
  ...estimate,
  scatter: rootSumSquares([estimate.scatter, rectangular(estimate.offset)]),
  offset: 0,
});

/** An air column at constant load shrinks as its absolute temperature does. */
const coolingRemark = (first: Snapshot, last: Snapshot): Remark[] => {
  const from = first.conditions.air?.value;
  const to = last.conditions.air?.value;
  if (from === undefined || to === undefined || from - to < muchCooler || kelvin(to) <= 0) return [];
  return [{ kind: 'air-column', percent: (100 * (from - to)) / kelvin(from), from, to }];
};

interface HeightDrop extends Measured {
  readonly channel: string;
  readonly units: RateUnits;
}

const keyOf = ({ channels }: Subject): string => channels[0] ?? '';

/** How fast each corner sinks at rest: the slope of a straight line through two readings of its height or more. */
export const heightDrop = measuring<HeightDrop>({
  kind: 'height-drop',
  about: 'How fast each corner loses height over neighbouring snapshots in which the vehicle stands.',
  properties: { of: { type: 'string' }, tiers: tiersSchema },
  required: ['of', 'tiers', 'in'],
  read: (raw, scope) => {
    const channel = readChannel(raw.of, ['of'], scope);
    const units = heightRate(channel, scope);
    return {
      unit: units.rate,
      units,
      channel: channel?.id ?? '',
      tiers: readTiers(raw.tiers, units.rate, scope),
    };
  },
  subjects: ({ channel }, shape, wasRead) => subjectsOf(shape, wasRead, channel),
  occasions: (fitting, subject, context) =>
    runsOf(
      context.job.snapshots,
      keyOf(subject),
      roleIn(fitting, keyOf(subject)),
      (before, after) =>
        stoodOtherwise(before, after) || disturbedBetween(context, subject.channels, before, after),
    ),
  withoutOccasion: (_fitting, { channels }, { states }) => ({ why: 'no-reading', states, channels }),
  measure: (occasion, subject, context, check, { units, tiers }) => {
    const taken = takePoints(occasion, keyOf(subject), context, check, leastPoints, null);
    if (!taken.ok) return missing(taken.missing);
    const { points } = taken;
    const trend = trendOf(
      trendPoints(points, 'h', ({ estimate }) => {
        const height = laidAnew(inUnit(estimate, units.of));
        return { value: height.value, terms: [{ estimate: height, sensitivity: 1 }] };
      }),
    );
    const [first, last] = [points[0], points.at(-1)];
    const remarks = first && last ? coolingRemark(first.snapshot, last.snapshot) : [];
    return trendOutcome(-trend.slope, trend, units.rate, 'h', tiers, remarks);
  },
});
