import fc from 'fast-check';
import { gamma } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { normalCdf } from '../../src/core/readings/normal.ts';
import { freedomOf, studentCdf, studentFactor } from '../../src/core/readings/student.ts';
import { beyond, distributionOf, insideOf } from '../../src/core/readings/verdict.ts';

/** The density of Student's distribution (JCGM 100:2008, G.3.2), with mathjs for the gamma function. */
const density = (t: number, freedom: number): number =>
  (gamma((freedom + 1) / 2) / (Math.sqrt(freedom * Math.PI) * gamma(freedom / 2))) *
  (1 + (t * t) / freedom) ** (-(freedom + 1) / 2);

/** The integral of a function from 0 to an end, by Simpson's rule. */
const simpson = (of: (x: number) => number, end: number, steps = 2000): number => {
  const width = end / steps;
  let sum = of(0) + of(end);
  for (let i = 1; i < steps; i += 1) sum += (i % 2 === 1 ? 4 : 2) * of(i * width);
  return (sum * width) / 3;
};

/** The probability between −t and t. */
const between = (t: number, freedom: number): number => 2 * simpson((x) => density(x, freedom), t);

describe("Student's distribution function", () => {
  it('is the integral of the density', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 12, noNaN: true }),
        fc.double({ min: 1, max: 100, noNaN: true }),
        (t, freedom) => {
          const above = (1 - between(t, freedom)) / 2;
          expect(studentCdf(-t, freedom)).toBeCloseTo(above, 9);
          expect(studentCdf(t, freedom)).toBeCloseTo(1 - above, 9);
        },
      ),
    );
  });

  // One degree of freedom is Cauchy's distribution, two have a closed form (Abramowitz & Stegun, 26.7.3 and 26.7.4).
  it.each([-1e6, -12.706, -9.007, -1, -1e-9, 0, 0.5, 3, 40])('has its closed forms at t = %s', (t) => {
    const cauchy = t < 0 ? Math.atan(-1 / t) / Math.PI : 0.5 + Math.atan(t) / Math.PI;
    expect(studentCdf(t, 1) / cauchy).toBeCloseTo(1, 12);
    const two = 1 / (2 + t * t + Math.abs(t) * Math.sqrt(2 + t * t));
    expect(studentCdf(-Math.abs(t), 2) / two).toBeCloseTo(1, 12);
  });

  it('comes to the normal distribution', () => {
    for (const z of [-3, -1.96, -0.5, 1, 2.5]) expect(studentCdf(z, 1e7)).toBeCloseTo(normalCdf(z), 7);
  });
});

describe("Student's factor for 95 %", () => {
  it.each(Array.from({ length: 59 }, (_, index) => index + 1))('%i degrees of freedom', (freedom) => {
    expect(between(studentFactor(freedom), freedom)).toBeCloseTo(0.95, 9);
  });

  // The usual tables, as in JCGM 100:2008, table G.2, to three places; values from memory, recomputed above.
  it.each([
    [1, 12.706],
    [2, 4.303],
    [3, 3.182],
    [4, 2.776],
    [5, 2.571],
    [10, 2.228],
    [20, 2.086],
    [21, 2.08],
    [25, 2.06],
    [30, 2.042],
    [40, 2.021],
  ])('%i degrees of freedom: %s', (freedom, factor) => {
    expect(studentFactor(freedom)).toBeCloseTo(factor, 3);
  });

  it('is never less than the usual 2', () => {
    expect(studentFactor(61)).toBe(2);
    expect(studentFactor(1000)).toBe(2);
  });

  it('tells its degrees of freedom', () => {
    for (let freedom = 1; freedom < 60; freedom += 1)
      expect(freedomOf(studentFactor(freedom)) / freedom).toBeCloseTo(1, 6);
  });
});

describe('the chance beyond a limit where U carries the factor', () => {
  const above = (limit: number, standard: number, factor: number): number =>
    beyond(0, standard, { low: null, high: limit }, distributionOf(factor)).high;

  it('is that of the degrees of freedom where the scatter is all', () => {
    for (const freedom of [1, 2, 5, 19])
      for (const t of [0.5, 1, 3, 9])
        expect(above(t * 0.7, 0.7, studentFactor(freedom))).toBeCloseTo(studentCdf(-t, freedom), 9);
  });

  it('is one in forty on each side of U, and one in twenty on both', () => {
    for (const factor of [2.0001, 2.5, 4, 9, 12.706]) {
      expect(above(factor * 0.3, 0.3, factor)).toBeCloseTo(0.025, 6);
      const limits = { low: 1 - 0.3 * factor, high: 1 + 0.3 * factor };
      expect(insideOf(beyond(1, 0.3, limits, distributionOf(factor)))).toBeCloseTo(0.95, 6);
    }
  });

  // Scatter of Student's distribution and an instrument's part of a normal one, added: their convolution by Simpson's
  // rule. The chances agree to 0.02, where those of a normal distribution are off by up to 0.1.
  it.each([
    [1, 0.3],
    [1, 1],
    [1, 3],
    [2, 0.3],
    [2, 1],
    [2, 3],
    [5, 1],
    [10, 1],
  ])('%i degrees of freedom with an instrument of %s times the scatter', (freedom, instrument) => {
    const total = Math.hypot(1, instrument);
    const factor = Math.hypot(studentFactor(freedom), 2 * instrument) / total;
    const exact = (limit: number): number =>
      simpson((z) => {
        const both = [z, -z].map((one) => studentCdf(-(limit - instrument * one), freedom));
        return (((both[0] ?? 0) + (both[1] ?? 0)) * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
      }, 9);
    for (const limit of [0.25, 0.5, 1, 2, factor, 2 * factor])
      expect(Math.abs(above(limit * total, total, factor) - exact(limit * total))).toBeLessThan(0.02);
  });
});
