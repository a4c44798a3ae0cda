import { normalCdf } from './normal.ts';
import { freedomOf, studentCdf, usualFactor } from './student.ts';

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

/** The chances that the true value lies below the low limit and above the high one; 0 where there is no such limit. */
export interface Beyond {
  readonly low: number;
  readonly high: number;
}

/** Standard deviations away from which a normal tail is less than half the last bit of 1: Φ(−9) is 1e-19. */
const certain = -9;

const neither: Beyond = { low: 0, high: 0 };

/**
 * The distribution of a value about the true one, in standard uncertainties u, by the coverage factor k of U = k·u.
 * For the usual factor of 2 it is the normal one. A larger factor is Student's, from few points, with what the
 * instrument adds in it: then it is Student's distribution of the degrees of freedom whose two-sided 95 % point is k,
 * so that U covers 95 % under it as well. Where the scatter is all, these are its own degrees of freedom; the greater
 * the instrument's part, the closer the distribution comes to the normal one. tests/outside/student.test.ts holds it to
 * the exact convolution of both parts.
 */
export const distributionOf = (factor: number): ((z: number) => number) => {
  if (factor <= usualFactor) return normalCdf;
  const freedom = freedomOf(factor);
  return (z) => studentCdf(z, freedom);
};

/**
 * The chances that the true value lies beyond each limit, F((L − x)/u) and F((x − H)/u).
 * Source: JCGM 106:2012, 7.2–7.4.
 *
 * @param standard standard uncertainty u, in the unit of value and limits
 * @param distribution F, from `distributionOf`
 */
export const beyond = (
  value: number,
  standard: number,
  { low, high }: Limits,
  distribution = normalCdf,
): Beyond => {
  if (standard === 0)
    return { low: low !== null && value < low ? 1 : 0, high: high !== null && value > high ? 1 : 0 };
  const toLow = low === null ? Number.NEGATIVE_INFINITY : (low - value) / standard;
  // Taken from the upper tail, so that a small chance keeps its digits.
  const toHigh = high === null ? Number.NEGATIVE_INFINITY : (value - high) / standard;
  if (distribution === normalCdf && toLow < certain && toHigh < certain) return neither;
  return { low: low === null ? 0 : distribution(toLow), high: high === null ? 0 : distribution(toHigh) };
};

/** The probability that the true value lies inside limits, by the chances that it lies beyond them. */
export const insideOf = ({ low, high }: Beyond): number => Math.min(1, Math.max(0, 1 - low - high));

/** How far inside the nearest limit a value lies; negative outside, null where there is no limit. */
export const margin = (value: number, limits: Limits): number | null => {
  const least = Math.min(
    limits.low === null ? Number.POSITIVE_INFINITY : value - limits.low,
    limits.high === null ? Number.POSITIVE_INFINITY : limits.high - value,
  );
  return Number.isFinite(least) ? least : null;
};
