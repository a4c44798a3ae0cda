import { gamma } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { studentFactor } from '../../src/core/readings/student.ts';

/** The density of Student's distribution (JCGM 100:2008, G.3.2), with mathjs for the gamma function. */
const density = (t: number, freedom: number): number =>
  (gamma((freedom + 1) / 2) / (Math.sqrt(freedom * Math.PI) * gamma(freedom / 2))) *
  (1 + (t * t) / freedom) ** (-(freedom + 1) / 2);

/** The probability between −t and t, by Simpson's rule. */
const between = (t: number, freedom: number): number => {
  const steps = 2000;
  const width = t / steps;
  let sum = density(0, freedom) + density(t, freedom);
  for (let i = 1; i < steps; i += 1) sum += (i % 2 === 1 ? 4 : 2) * density(i * width, freedom);
  return (2 * sum * width) / 3;
};

describe("Student's factor for 95 %", () => {
  it.each([...Array.from({ length: 30 }, (_, index) => index + 1), 40, 50, 58])(
    '%i degrees of freedom',
    (freedom) => {
      expect(between(studentFactor(freedom), freedom)).toBeCloseTo(0.95, 4);
    },
  );

  // JCGM 100:2008, table G.2, prints two places; the third is from the density above.
  it.each([
    [1, 12.706],
    [20, 2.086],
    [21, 2.08],
    [22, 2.074],
    [30, 2.042],
    [40, 2.021],
  ])('for %i degrees of freedom is %s', (freedom, factor) => {
    expect(studentFactor(freedom)).toBeCloseTo(factor, 3);
  });

  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, upper critical values: the column of 0.975.
  it.each(
    [
      12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131,
      2.12, 2.11, 2.101, 2.093, 2.086, 2.08, 2.074, 2.069, 2.064, 2.06, 2.056, 2.052, 2.048, 2.045, 2.042,
    ].map((factor, index) => [index + 1, factor] as const),
  )('for %i degrees of freedom is %s to three places', (freedom, factor) => {
    expect(Math.abs(studentFactor(freedom) - factor)).toBeLessThanOrEqual(0.000_51);
  });

  it('falls with every degree of freedom, and is never less than the usual 2', () => {
    const factors = Array.from({ length: 58 }, (_, index) => studentFactor(index + 1));
    expect(factors).toEqual([...new Set(factors)].sort((a, b) => b - a));
    expect(studentFactor(61)).toBe(2);
    expect(studentFactor(1000)).toBe(2);
  });
});
