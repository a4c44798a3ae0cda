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
  it.each(Array.from({ length: 20 }, (_, index) => index + 1))('%i degrees of freedom', (freedom) => {
    expect(between(studentFactor(freedom), freedom)).toBeCloseTo(0.95, 4);
  });

  it('is never less than the usual 2', () => {
    expect(studentFactor(21)).toBe(2);
    expect(studentFactor(1000)).toBe(2);
  });
});
