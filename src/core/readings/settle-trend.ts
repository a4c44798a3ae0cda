import type { Settle } from './settle.ts';
import { studentFactor } from './student.ts';
import type { Trend } from './trend.ts';
import { type Limits, margin } from './verdict.ts';

/** What would turn a rate that is too close to call into a verdict. */
export type TrendSettle =
  | Settle
  /** A longer time from first to last; null where how long cannot be said. */
  | { readonly how: 'longer-run'; readonly time: number | null; readonly unit: 'min' | 'h' }
  /** The air's temperature at each reading. */
  | { readonly how: 'state-air' };

/** Points that somebody might still take in one sitting. */
const manyPoints = 12;

/** Two significant digits, rounded up, so that the advice is enough. */
const roundUp = (value: number): number => {
  const place = 10 ** (Math.floor(Math.log10(value)) - 1);
  return Number((Math.ceil(value / place - 1e-9) * place).toPrecision(2));
};

/** How many points over the same time would do, or null. */
const enoughPoints = ({ count, slopeError }: Trend, room: number): number | null => {
  if (slopeError === null) return null;
  for (let more = count + 1; more <= manyPoints; more += 1) {
    // Points spread evenly over a given time: Σ(x − x̄)² grows as their number.
    if (studentFactor(more - 2) * slopeError * Math.sqrt(count / more) <= room) return more;
  }
  return null;
};

/**
 * What would turn a rate that is too close to call into a verdict: more points where they do not lie on a line, the
 * air's temperature where it was not stated, else a longer time, over which the same last digit weighs less.
 *
 * @param value the rate that was judged: the trend's slope, or its negative
 * @param unit the trend's unit of time
 */
export const settleTrend = (value: number, trend: Trend, limits: Limits, unit: 'min' | 'h'): TrendSettle => {
  const room = Math.abs(margin(value, limits) ?? 0) * 0.999;
  const { accuracy, total, besides } = trend.spread;
  // Where the temperature is not known, stating it may well move the rate off its limit.
  if (room <= 0.04 * total) return { how: besides ? 'state-air' : 'on-the-limit' };
  const left = room > 2 * accuracy ? Math.sqrt(room ** 2 - (2 * accuracy) ** 2) : 0;
  if (left < 0.3 * room) {
    const byTemperature = besides !== undefined && besides.standard > accuracy / Math.SQRT2;
    return byTemperature ? { how: 'state-air' } : { how: 'longer-run', time: null, unit };
  }
  const times = enoughPoints(trend, left);
  if (times !== null) return { how: 'repeat', times };
  return { how: 'longer-run', time: roundUp((trend.span * trend.expandedScatter) / left), unit };
};
