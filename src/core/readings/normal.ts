/** erf(x) by its Maclaurin series; converges fast and loses no digits that matter for |x| < 2.5. */
const erfSeries = (x: number): number => {
  let term = x;
  let sum = x;
  for (let n = 1; Math.abs(term) > 1e-17 * Math.abs(sum) && n < 200; n += 1) {
    term *= (-x * x) / n;
    sum += term / (2 * n + 1);
  }
  return (2 / Math.sqrt(Math.PI)) * sum;
};

/** erfc(x) for x ≥ 2.5 by its continued fraction, evaluated from the far end. */
const erfcFraction = (x: number): number => {
  let tail = 0;
  for (let k = 60; k > 0; k -= 1) tail = k / 2 / (x + tail);
  return Math.exp(-x * x) / Math.sqrt(Math.PI) / (x + tail);
};

const erfc = (x: number): number => {
  // Far out nothing is left of it: e^(−x²) is no number above zero any more, and 2 less it is 2.
  if (x > 28) return 0;
  if (x < -7) return 2;
  if (x < 0) return 2 - erfc(-x);
  return x < 2.5 ? 1 - erfSeries(x) : erfcFraction(x);
};

/**
 * Φ(z), the standard normal distribution function, to about 14 digits over the whole line.
 * Formulae: Abramowitz & Stegun, Handbook of Mathematical Functions, 7.1.5 and 7.1.14.
 */
export const normalCdf = (z: number): number => {
  if (Number.isNaN(z)) return Number.NaN;
  return erfc(-z / Math.SQRT2) / 2;
};
