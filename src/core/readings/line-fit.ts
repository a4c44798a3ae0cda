import { mean } from './statistics.ts';

export interface Line {
  readonly intercept: number;
  readonly slope: number;
  /** Σ(x − x̄)², which turns a standard uncertainty of y into one of the slope. */
  readonly sxx: number;
  /** Standard error of the slope from the scatter about the line; null with two points. */
  readonly slopeError: number | null;
}

/**
 * Ordinary least squares of y on x, at least two points with different x.
 * Centred sums, as in NIST/SEMATECH e-Handbook of Statistical Methods, 4.4.3.1.
 */
export const fitLine = (xs: readonly number[], ys: readonly number[]): Line => {
  const x0 = mean(xs);
  const y0 = mean(ys);
  const sum = (of: (x: number, y: number) => number): number =>
    xs.reduce((total, x, index) => total + of(x - x0, (ys[index] ?? 0) - y0), 0);
  const sxx = sum((x) => x * x);
  const slope = sum((x, y) => x * y) / sxx;
  const squares = sum((x, y) => (y - slope * x) ** 2);
  return {
    intercept: y0 - slope * x0,
    slope,
    sxx,
    slopeError: xs.length > 2 ? Math.sqrt(squares / (xs.length - 2) / sxx) : null,
  };
};
