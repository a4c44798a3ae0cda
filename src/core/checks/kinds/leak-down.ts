import type { Remark } from '../../finding.ts';
import { type Trend, type TrendPoint, trendOf } from '../../readings/trend.ts';
import type { UnitName } from '../../readings/units.ts';
import { toldSchema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing } from '../outcome.ts';
import { type Air, closedRole, corrected, uncorrected } from '../over-time/closed-air.ts';
import { pressureRate, type RateUnits } from '../over-time/rate-units.ts';
import { disturbedBetween, runsOf, takePoints } from '../over-time/runs.ts';
import { trendOutcome } from '../over-time/trend-outcome.ts';
import { readChannel, readQuantity } from '../parameters.ts';
import { airTemperatures, localPressures } from '../surrounding-air.ts';
import { readTiers, tierLines, tiersSchema } from '../tiers.ts';

const leastPoints = 3;
const condition = 'air-system: closed';

/** The part of a fall that the cooling must account for before it is said to explain it. */
const mostOf = 0.8;

/** What the temperature did to the pressure from the first reading to the last. */
const temperatureRemarks = (
  read: readonly TrendPoint[],
  unit: UnitName,
  trend: Trend,
  { temperatures }: Air,
): Remark[] => {
  if (!temperatures) {
    const { besides } = trend.spread;
    const rate = (besides?.standard ?? 0) * Math.sqrt(3);
    return [{ kind: 'air-taken-as-steady', rate, unit: `${unit}/h` as UnitName }];
  }
  const from = temperatures[0]?.value ?? 0;
  const to = temperatures.at(-1)?.value ?? from;
  const fall = -trendOf(read).slope * trend.span;
  const share = fall + trend.slope * trend.span;
  if (Math.abs(to - from) < 1 || Math.sign(share) !== Math.sign(from - to)) return [];
  const lossShown = Math.abs(trend.slope) > trend.factor * trend.spread.total;
  // Poor readings show no loss either, so most of the fall must be there before it counts as explained.
  const all = !lossShown && share >= mostOf * fall;
  if (share <= 0 || fall <= 0 || (share > fall && !all)) {
    return [{ kind: 'temperature-allowed-for', share, unit, from, to }];
  }
  return [{ kind: 'cooling-explains', share, fall, all, unit, from, to }];
};

/** How long the reserve lasts at the rate that was found, or at the worst that was not ruled out. */
const timeToLose = (reserve: number | null, unit: UnitName, trend: Trend): Remark[] => {
  if (reserve === null) return [];
  const expanded = trend.factor * trend.spread.total;
  const loss = -trend.slope;
  const atLeast = loss <= expanded;
  const rate = atLeast ? loss + expanded : loss;
  return rate > 0 ? [{ kind: 'time-to-lose', amount: reserve, unit, hours: reserve / rate, atLeast }] : [];
};

interface LeakDown extends Measured {
  readonly of: string;
  readonly units: RateUnits;
  /** The pressure whose loss is put as a time; null where the pack names none. */
  readonly reserve: number | null;
}

/**
 * How fast a closed system loses pressure: the slope of a straight line through three readings or more, gauge made
 * absolute and brought to one temperature. A gauge's fixed error cancels.
 */
export const leakDown = measuring<LeakDown>({
  kind: 'leak-down',
  about:
    'How fast a pressure falls over neighbouring snapshots of a closed air system, temperature corrected.',
  properties: {
    of: { type: 'string' },
    tiers: tiersSchema,
    /** The pressure whose loss is put as a time. */
    reserve: toldSchema,
  },
  required: ['of', 'tiers', 'in'],
  read: (raw, scope) => {
    const channel = readChannel(raw.of, ['of'], scope);
    const units = pressureRate(channel, 'h', scope);
    return {
      unit: units.rate,
      units,
      of: channel?.id ?? '',
      tiers: readTiers(raw.tiers, units.rate, scope),
      reserve: raw.reserve === undefined ? null : readQuantity(raw.reserve, units.of, ['reserve'], scope),
    };
  },
  limits: ({ tiers, units, reserve }) => [
    ...tierLines(tiers, units.rate),
    ...(reserve === null ? [] : [`tells the time to lose ${reserve} ${units.of}`]),
  ],
  subjects: ({ of }) => [{ name: of, channels: [of] }],
  occasions: (fitting, { channels }, context, { of }) =>
    runsOf(context.job.snapshots, of, closedRole(fitting, of), (before, after) =>
      disturbedBetween(context, channels, before, after),
    ),
  withoutOccasion: (fitting, { channels }, check, { of }) => {
    const read = fitting.findLast(({ readings }) => readings.has(of));
    if (!read) return { why: 'no-reading', states: check.states, channels };
    const is = read.conditions.words['air-system'];
    const wants = { condition: 'air-system', wants: 'closed' };
    if (is === undefined) return { why: 'condition-not-stated', ...wants };
    return { why: 'condition-differs', ...wants, is };
  },
  measure: (occasion, _subject, context, check, { of, units, tiers, reserve }) => {
    const taken = takePoints(occasion, of, context, check, leastPoints, condition);
    if (!taken.ok) return missing(taken.missing);
    const { points } = taken;
    const snapshots = points.map(({ snapshot }) => snapshot);
    const air = {
      local: localPressures(snapshots, context),
      temperatures: airTemperatures(snapshots, context),
    };
    const read = uncorrected(points, units.of, air);
    const trend = corrected(read, air);
    return trendOutcome(-trend.slope, trend, units.rate, 'h', tiers, [
      ...temperatureRemarks(read, units.of, trend, air),
      ...timeToLose(reserve, units.of, trend),
    ]);
  },
});
