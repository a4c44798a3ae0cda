import { normalCdf } from './normal.ts';

export type Verdict = 'within' | 'out' | 'too-close' | 'not-taken';

/** Limits in the unit of the value; null where there is none on that side. */
export interface Limits {
  readonly low: number | null;
  readonly high: number | null;
}

/** `guarded` keeps a guard band of U on both sides of a limit; `simple` compares the bare value. */
export type Decision = 'guarded' | 'simple';

/** Absorbs the last bits of binary arithmetic, so that 0.3 − 0.1 meets a limit of 0.2. */
const slack = (value: number): number => 1e-9 * Math.max(1, Math.abs(value));

export interface Judgement {
  readonly verdict: 'within' | 'out' | 'too-close';
  readonly side: 'low' | 'high' | null;
}

/**
 * Verdict of a value with expanded uncertainty U against limits, with guard bands:
 * within if L + U ≤ x ≤ H − U, out if x < L − U or x > H + U, otherwise too close to call.
 * Source: JCGM 106:2012, clauses 7–8; ILAC-G8:09/2019.
 */
export const judge = (
  value: number,
  expanded: number,
  limits: Limits,
  decision: Decision = 'guarded',
): Judgement => {
  const guard = decision === 'simple' ? 0 : expanded;
  const { low, high } = limits;
  const edge = slack(value);
  if (low !== null && value < low - guard - edge) return { verdict: 'out', side: 'low' };
  if (high !== null && value > high + guard + edge) return { verdict: 'out', side: 'high' };
  if (low !== null && value < low + guard - edge) return { verdict: 'too-close', side: 'low' };
  if (high !== null && value > high - guard + edge) return { verdict: 'too-close', side: 'high' };
  return { verdict: 'within', side: null };
};

/** Standard deviations away from which a tail is less than half the last bit of 1: Φ(−9) is 1e-19. */
const certain = -9;

/**
 * The probability that the true value lies inside the limits, Φ((H − x)/u) − Φ((L − x)/u).
 * Source: JCGM 106:2012, 7.2–7.4.
 */
export const inside = (value: number, standard: number, limits: Limits): number => {
  const { low, high } = limits;
  if (standard === 0) return (low === null || value >= low) && (high === null || value <= high) ? 1 : 0;
  const toLow = low === null ? Number.NEGATIVE_INFINITY : (low - value) / standard;
  // Taken from the upper tail, so that a small chance keeps its digits.
  const toHigh = high === null ? Number.NEGATIVE_INFINITY : (value - high) / standard;
  if (toLow < certain && toHigh < certain) return 1;
  const below = normalCdf(toLow);
  const above = normalCdf(toHigh);
  return Math.min(1, Math.max(0, 1 - below - above));
};

/** How far inside the nearest limit a value lies; negative outside, null where there is no limit. */
export const margin = (value: number, limits: Limits): number | null => {
  const least = Math.min(
    limits.low === null ? Number.POSITIVE_INFINITY : value - limits.low,
    limits.high === null ? Number.POSITIVE_INFINITY : limits.high - value,
  );
  return Number.isFinite(least) ? least : null;
};
