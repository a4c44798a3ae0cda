import { type Estimate, spreadOfOne, type Term } from './estimate.ts';
import type { Points } from './interpolate.ts';

/** What a height is measured from: the wheel's centre to the body above it, or the floor. */
export const heightBases = ['wheel-centre', 'floor'] as const;
export type HeightBase = (typeof heightBases)[number];

/** Measured pairs of one sensor: volts and millimetres, two at least, sorted by volts. */
export interface HeightTable {
  readonly points: Points;
  readonly from: HeightBase;
}

/** Which way the second column goes as the first rises; null where it turns, stands still or has two values for one. */
export const trendOf = (points: Points): 'rising' | 'falling' | null => {
  const steps = points.slice(1).map(([x, y], index) => {
    const [x0 = x, y0 = y] = points[index] ?? [];
    return x > x0 ? Math.sign(y - y0) : 0;
  });
  if (steps.length > 0 && steps.every((step) => step > 0)) return 'rising';
  return steps.length > 0 && steps.every((step) => step < 0) ? 'falling' : null;
};

/** The straight line of the piece that holds x; beyond the ends the outermost piece goes on. */
const lineAt = (points: Points, x: number): number => {
  const upper = points.findIndex(([at], index) => index > 0 && (x <= at || index === points.length - 1));
  const from = points[upper - 1];
  const to = points[upper];
  if (!from || !to) throw new Error('a height table of fewer than two points');
  return from[1] + ((to[1] - from[1]) / (to[0] - from[0])) * (x - from[0]);
};

export interface SensorHeight {
  /** mm */
  readonly height: number;
  /** The volts behind it, with the local slope in mm per volt: how its uncertainty goes on. */
  readonly term: Term;
  /** True outside the measured pairs, where the line is only drawn on. */
  readonly extrapolated: boolean;
}

/**
 * A sensor's height from its volts, by straight lines through the measured pairs of the vehicle's data. The slope is
 * the mean over the volts ± their standard uncertainty, so that a corner of the table is not one-sided; what the
 * pairs themselves were measured to is not carried on.
 *
 * @param volts the signal, V
 */
export const sensorHeight = (volts: Estimate, table: HeightTable): SensorHeight => {
  const { points } = table;
  const step = Math.max(spreadOfOne(volts).total, 1e-6);
  const rise = lineAt(points, volts.value + step) - lineAt(points, volts.value - step);
  const low = points[0]?.[0] ?? volts.value;
  const high = points.at(-1)?.[0] ?? volts.value;
  return {
    height: lineAt(points, volts.value),
    term: { estimate: volts, sensitivity: rise / (2 * step) },
    extrapolated: volts.value < low || volts.value > high,
  };
};
