import { type Corner, corners } from '../../corner.ts';
import type { Remark } from '../../finding.ts';
import type { Check } from '../../pack.ts';
import { kelvin } from '../../readings/air.ts';
import { columnChange } from '../../readings/air-column.ts';
import { fitSpringLoss, foundSpring, type LossFit } from '../../readings/spring-loss.ts';
import { rectangular } from '../../readings/statistics.ts';
import { type Trend, trendOf } from '../../readings/trend.ts';
import type { CheckContext } from '../check-context.ts';
import { readCornerChannel } from '../height-sources.ts';
import { quantitySchema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, type Occasion, type Outcome } from '../outcome.ts';
import { unstatedTemperature } from '../over-time/closed-air.ts';
import { likeConditions } from '../over-time/like-conditions.ts';
import { disturbedBetween, type Point, runsOf, takePoints } from '../over-time/runs.ts';
import { inUnit, trendOutcome, trendPoints } from '../over-time/trend-outcome.ts';
import { readQuantity } from '../parameters.ts';
import { cornerNamed } from '../signal-source.ts';
import { laidAnew, standingRole } from '../standing-heights.ts';
import { airTemperatures, unseenDrift } from '../surrounding-air.ts';
import { readTiers, tierLines, tiersSchema } from '../tiers.ts';

interface Parts extends Measured {
  readonly channel: string;
  /** Effective length of an air column, mm. */
  readonly column: number;
}

const leastPoints = 2;

/** How far the effective length may be from the pack's figure, as a fraction. From memory. */
const columnOpen = 0.3;

/** Cooling or warming by less than this, °C, is not told. */
const leastTold = 2;

/** Heights with time at one corner, mm an hour, brought to the air temperature of the first. */
const trendAt = (points: readonly Point[], { column }: Parts, context: CheckContext): Trend => {
  const air = airTemperatures(
    points.map(({ snapshot }) => snapshot),
    context,
  );
  const from = air?.[0]?.value ?? unstatedTemperature;
  const read = trendPoints(points, 'h', ({ estimate }, index) => {
    const height = laidAnew(inUnit(estimate, 'mm'));
    const own = { estimate: height, sensitivity: 1 };
    const warmth = air?.[index];
    if (!warmth) return { value: height.value, terms: [own] };
    const sensitivity = -column / kelvin(from);
    return {
      value: height.value - columnChange(column, from, warmth.value),
      terms: [own, { estimate: warmth, sensitivity }],
    };
  });
  const hours = read.at(-1)?.time ?? 0;
  const change = air && hours > 0 ? columnChange(column, from, air.at(-1)?.value ?? from) / hours : 0;
  const open = rectangular(columnOpen * Math.abs(change));
  return trendOf(read, open > 0 ? { standard: open, from: 'temperature' } : undefined);
};

/** A trend with what an air temperature that nobody stated leaves open of an equal fall. */
const withUnseenAir = (trend: Trend, { column }: Parts): Trend => {
  const perHour = (column * unseenDrift(Math.max(trend.span, 1e-9))) / kelvin(unstatedTemperature);
  const standard = rectangular(perHour);
  const accuracy = Math.hypot(trend.spread.accuracy, standard);
  const total = Math.hypot(trend.spread.scatter, accuracy);
  return {
    ...trend,
    spread: {
      ...trend.spread,
      accuracy,
      total,
      besides: { standard, from: 'temperature' },
      beside: Math.hypot(trend.spread.beside ?? 0, standard),
    },
    factor: Math.hypot(trend.expandedScatter, 2 * accuracy) / total,
  };
};

/** All four trends of a run and what explains them; null where one of the four was not read often enough. */
const explained = (
  occasion: Occasion,
  parts: Parts,
  context: CheckContext,
  check: Check,
): readonly [LossFit, ...LossFit[]] | null => {
  const losses: Partial<Record<Corner, { value: number; standard: number }>> = {};
  for (const corner of corners) {
    const taken = takePoints(occasion, `${parts.channel}.${corner}`, context, check, leastPoints, null);
    if (!taken.ok) return null;
    const trend = trendAt(taken.points, parts, context);
    losses[corner] = { value: -trend.slope, standard: trend.spread.scatter };
  }
  const { LF, RF, LR, RR } = losses;
  return LF && RF && LR && RR ? fitSpringLoss({ LF, RF, LR, RR }) : null;
};

const airRemarks = (points: readonly Point[], { column }: Parts): Remark[] => {
  const from = points[0]?.snapshot.conditions.air?.value;
  const to = points.at(-1)?.snapshot.conditions.air?.value;
  if (from === undefined || to === undefined || Math.abs(to - from) < leastTold) return [];
  return [{ kind: 'column-change', mm: columnChange(column, from, to), from, to }];
};

const measure = (
  occasion: Occasion,
  { name }: { name: string },
  context: CheckContext,
  check: Check,
  parts: Parts,
): Outcome => {
  const corner = cornerNamed(name);
  const taken = takePoints(occasion, `${parts.channel}.${corner}`, context, check, leastPoints, null);
  if (!taken.ok) return missing(taken.missing);
  const trend = trendAt(taken.points, parts, context);
  const remarks = airRemarks(taken.points, parts);
  const fits =
    context.job.vehicle.fitted.length === corners.length ? explained(occasion, parts, context, check) : null;
  const found = fits && foundSpring(fits);
  const outcome = (loss: number, of: Trend, more: readonly Remark[]): Outcome =>
    trendOutcome(loss, of, 'mm/h', 'h', parts.tiers, [...remarks, ...more]);
  if (found) {
    if (found.corner === corner) return outcome(-trend.slope, trend, [{ kind: 'own-spring', corner }]);
    const share = found.fit.at[corner];
    const leans: Remark = { kind: 'leans-with', corner: found.corner, share, unit: 'mm/h' };
    return outcome(-trend.slope - share, trend, [leans]);
  }
  const [best] = fits ?? [];
  if (best?.family === 'together') {
    const stated = airTemperatures(
      taken.points.map(({ snapshot }) => snapshot),
      context,
    );
    const open: Remark[] = stated ? [] : [{ kind: 'equal-fall-open' }];
    return outcome(-trend.slope, stated ? trend : withUnseenAir(trend, parts), open);
  }
  return outcome(
    -trend.slope,
    trend,
    best?.family === 'corner' && best.place === corner ? [{ kind: 'no-body-moves-so' }] : [],
  );
};

/**
 * How fast a corner sinks at rest, all four fitted together: a body is rigid, so that one spring moves its neighbours,
 * too, and only the corner whose spring explains the four is judged by what it lost.
 */
export const heightLoss = measuring<Parts>({
  kind: 'height-loss',
  about:
    'How fast each corner loses height while the vehicle stands, less what another corner of the rigid body or the temperature explains.',
  properties: { of: { type: 'string' }, 'air-column': quantitySchema, tiers: tiersSchema },
  required: ['of', 'air-column', 'tiers', 'in'],
  read: (raw, scope) => ({
    unit: 'mm/h',
    tiers: readTiers(raw.tiers, 'mm/h', scope),
    channel: readCornerChannel(raw.of, 'of', 'mm', scope)?.id ?? '',
    column: readQuantity(raw['air-column'], 'mm', ['air-column'], scope),
  }),
  limits: ({ tiers, column }) => [...tierLines(tiers, 'mm/h'), `air column: ${column} mm`],
  subjects: ({ channel }, { fitted }) =>
    fitted.map((corner) => ({ name: corner, channels: [`${channel}.${corner}`] })),
  occasions: (fitting, { channels: [key = ''] }, context) =>
    runsOf(
      context.job.snapshots,
      key,
      standingRole(fitting, key),
      (before, after) =>
        !likeConditions(before, after, ['load', 'floor', 'heights-from']) ||
        disturbedBetween(context, [key], before, after),
    ),
  withoutOccasion: (_fitting, { channels }, { states }) => ({ why: 'no-reading', states, channels }),
  measure,
});
