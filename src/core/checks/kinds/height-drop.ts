import type { Remark } from '../../finding.ts';
import type { Snapshot } from '../../job.ts';
import { kelvin } from '../../readings/air.ts';
import { trendOf } from '../../readings/trend.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing } from '../outcome.ts';
import { likeConditions } from '../over-time/like-conditions.ts';
import { heightRate, type RateUnits } from '../over-time/rate-units.ts';
import { disturbedBetween, runsOf, takePoints } from '../over-time/runs.ts';
import { inUnit, trendOutcome, trendPoints } from '../over-time/trend-outcome.ts';
import { readChannel } from '../parameters.ts';
import { laidAnew, standingRole } from '../standing-heights.ts';
import { type Subject, subjectsOf } from '../subjects.ts';
import { readTiers, tiersSchema } from '../tiers.ts';

/** Two will do: their slope is as good as the tape, and the scatter about a line is not asked for. */
const leastPoints = 2;

/** Cooling by this much, °C, is told: it takes some two per cent of the air column. */
const muchCooler = 5;

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
      standingRole(fitting, keyOf(subject)),
      (before, after) =>
        // A load or a floor that is not the one before moves the body without any air.
        !likeConditions(before, after, ['load', 'floor']) ||
        disturbedBetween(context, subject.channels, before, after),
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
