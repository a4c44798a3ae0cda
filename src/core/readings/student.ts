/** Lanczos' coefficients for g = 7. */
const lanczos = [
  676.520_368_121_885_1, -1259.139_216_722_402_8, 771.323_428_777_653_1, -176.615_029_162_140_6,
  12.507_343_278_686_905, -0.138_571_095_265_720_12, 9.984_369_578_019_572e-6, 1.505_632_735_149_311_6e-7,
];

/** ln Γ(x) for x > 0, by Lanczos' approximation (SIAM Journal on Numerical Analysis 1, 1964) to about 14 digits. */
const lnGamma = (x: number): number => {
  let sum = 0.999_999_999_999_809_9;
  for (const [index, coefficient] of lanczos.entries()) sum += coefficient / (x + index);
  const base = x + 6.5;
  return Math.log(Math.sqrt(2 * Math.PI) * sum) + (x - 0.5) * Math.log(base) - base;
};

/** The continued fraction of the incomplete beta function, evaluated by the method of Lentz; for x < (a+1)/(a+b+2). */
const betaFraction = (x: number, a: number, b: number): number => {
  const apart = (value: number): number => (Math.abs(value) < 1e-300 ? 1e-300 : value);
  let c = 1;
  let d = 1 / apart(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m < 500; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / apart(1 + even * d);
    c = apart(1 + even / c);
    fraction *= c * d;
    d = 1 / apart(1 + odd * d);
    c = apart(1 + odd / c);
    fraction *= c * d;
    if (Math.abs(c * d - 1) < 1e-15) break;
  }
  return fraction;
};

/**
 * The regularised incomplete beta function I_x(a, b), for 0 ≤ x ≤ 1 and a, b > 0.
 * Formulae: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.5.2 and 26.5.8.
 */
const incompleteBeta = (x: number, a: number, b: number): number => {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(lnGamma(a + b) - lnGamma(a) - lnGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  return x < (a + 1) / (a + b + 2)
    ? (front * betaFraction(x, a, b)) / a
    : 1 - (front * betaFraction(1 - x, b, a)) / b;
};

/**
 * Student's distribution function: the chance of a value below t. Small chances keep their digits.
 * Formula: Abramowitz & Stegun, 26.7.1 and 26.5.27.
 *
 * @param freedom degrees of freedom, above zero, not necessarily whole
 */
export const studentCdf = (t: number, freedom: number): number => {
  const square = t * t;
  // Near the middle the other end of the beta function keeps the digits.
  const tail =
    square < freedom
      ? (1 - incompleteBeta(square / (freedom + square), 0.5, freedom / 2)) / 2
      : incompleteBeta(freedom / (freedom + square), freedom / 2, 0.5) / 2;
  return t < 0 ? tail : 1 - tail;
};

/** Where a rising function reaches a value between two arguments: regula falsi, by the Illinois rule. */
const solve = (rising: (x: number) => number, wanted: number, from: number, to: number): number => {
  let [low, high] = [from, to];
  let [below, above] = [rising(low) - wanted, rising(high) - wanted];
  if (below >= 0) return low;
  if (above <= 0) return high;
  for (let round = 0; round < 60 && high - low > 1e-12 * high; round += 1) {
    const x = high - (above * (high - low)) / (above - below);
    const off = rising(x) - wanted;
    // An end that stays counts half, so that the other side moves, too.
    if (off > 0) {
      [high, above] = [x, off];
      below /= 2;
    } else if (off < 0) {
      [low, below] = [x, off];
      above /= 2;
    } else return x;
  }
  return (low + high) / 2;
};

/** The upper end of an interval that holds 95 % leaves this below it. */
const covered = 0.975;

/** No factor is smaller: about 95 % of a normal distribution. */
export const usualFactor = 2;

/**
 * The coverage factor for about 95 % where a standard error rests on few points: the two-sided 95 % point of Student's
 * distribution, and never less than the usual 2. Held to published tables in tests/outside/student.test.ts.
 *
 * @param freedom degrees of freedom, 1 or more
 */
export const studentFactor = (freedom: number): number =>
  studentCdf(usualFactor, freedom) >= covered
    ? usualFactor
    : solve((t) => studentCdf(t, freedom), covered, usualFactor, 13);

/**
 * The degrees of freedom, not necessarily whole, of which a coverage factor is the two-sided 95 % point.
 *
 * @param factor above 2, up to 12.7, which belongs to one degree of freedom
 */
export const freedomOf = (factor: number): number =>
  solve((freedom) => studentCdf(factor, freedom), covered, 1, 61);
