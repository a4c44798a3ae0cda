import type { Remark } from '../../finding.ts';
import type { Tier } from '../../pack.ts';
import type { Estimate, Term } from '../../readings/estimate.ts';
import { settleTrend } from '../../readings/settle-trend.ts';
import { resolutionUncertainty } from '../../readings/statistics.ts';
import type { Trend, TrendPoint } from '../../readings/trend.ts';
import { convertSpan, type UnitName } from '../../readings/units.ts';
import type { Outcome } from '../outcome.ts';
import type { Point } from './runs.ts';

const milliseconds = { min: 60_000, h: 3_600_000 } as const;

/** An estimate in another unit of its quantity; only for units without an offset. */
export const inUnit = (estimate: Estimate, unit: UnitName): Estimate => ({
  ...estimate,
  value: convertSpan(estimate.value, estimate.unit, unit),
  unit,
  scatter: convertSpan(estimate.scatter, estimate.unit, unit),
  offset: convertSpan(estimate.offset, estimate.unit, unit),
});

/** Points of a trend from those of a run, in minutes or hours since the first. */
export const trendPoints = (
  points: readonly Point[],
  per: 'min' | 'h',
  read: (point: Point, index: number) => { readonly value: number; readonly terms: readonly Term[] },
): TrendPoint[] => {
  const start = points[0]?.snapshot.stamp.at ?? 0;
  return points.map((point, index) => ({
    time: (point.snapshot.stamp.at - start) / milliseconds[per],
    clock: resolutionUncertainty(point.snapshot.stamp.resolution / milliseconds[per]),
    ...read(point, index),
  }));
};

/**
 * The outcome of a trend that is judged by its slope.
 *
 * @param value the slope, or its negative where a loss is judged
 */
export const trendOutcome = (
  value: number,
  trend: Trend,
  unit: UnitName,
  per: 'min' | 'h',
  tiers: readonly Tier[],
  remarks: readonly Remark[],
): Outcome => ({
  taken: true,
  value,
  unit,
  factor: trend.factor,
  spread: trend.spread,
  scatterFrom: 'resolution',
  count: trend.count,
  tiers,
  remarks,
  settle: (limits) => settleTrend(value, trend, limits, per),
});
