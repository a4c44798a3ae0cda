/** Arithmetic mean of at least one value, summed about the first so that large offsets do not cost digits. */
export const mean = (values: readonly number[]): number => {
  const origin = values[0];
  if (origin === undefined) throw new Error('mean of no values');
  let sum = 0;
  for (const value of values) sum += value - origin;
  return origin + sum / values.length;
};

/**
 * Sample standard deviation (n − 1), two-pass with the usual correction for rounding; needs two values or more.
 * Held to NIST StRD Mavro and NumAcc1 in tests/outside/uncertainty.test.ts.
 */
export const standardDeviation = (values: readonly number[]): number => {
  if (values.length < 2) throw new Error('standard deviation of fewer than two values');
  const centre = mean(values);
  const residuals = values.map((value) => value - centre);
  const squares = residuals.reduce((sum, residual) => sum + residual * residual, 0);
  const drift = residuals.reduce((sum, residual) => sum + residual, 0);
  return Math.sqrt((squares - (drift * drift) / values.length) / (values.length - 1));
};

/** Standard uncertainty of a quantity known only to lie within ± halfWidth (JCGM 100:2008, 4.3.7). */
export const rectangular = (halfWidth: number): number => Math.abs(halfWidth) / Math.sqrt(3);

/** Standard uncertainty left by a last digit of place value d: d/√12 (JCGM 100:2008, F.2.2.1). */
export const resolutionUncertainty = (placeValue: number): number => placeValue / Math.sqrt(12);

/** Root of the sum of squares. */
export const rootSumSquares = (parts: readonly number[]): number => {
  let sum = 0;
  for (const part of parts) sum += part * part;
  return Math.sqrt(sum);
};
