import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mean, rootSumSquares, standardDeviation } from '../../../src/core/readings/statistics.ts';

const values = fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 2, maxLength: 20 });

describe('mean and standard deviation', () => {
  it('of one value: the value, and a bug to ask for its deviation', () => {
    expect(mean([2.48])).toBe(2.48);
    expect(() => standardDeviation([2.48])).toThrow();
    expect(() => mean([])).toThrow();
  });

  it('of equal values is nought', () => {
    expect(standardDeviation([12.31, 12.31, 12.31])).toBe(0);
  });

  it('move with an offset and scale with a factor', () => {
    fc.assert(
      fc.property(
        values,
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        fc.double({ min: -10, max: 10, noNaN: true }),
        (list, by, times) => {
          const moved = list.map((value) => value + by);
          const scaled = list.map((value) => value * times);
          expect(mean(moved)).toBeCloseTo(mean(list) + by, 8);
          expect(standardDeviation(moved)).toBeCloseTo(standardDeviation(list), 7);
          expect(standardDeviation(scaled)).toBeCloseTo(Math.abs(times) * standardDeviation(list), 7);
        },
      ),
    );
  });
});

describe('rootSumSquares', () => {
  it('is the hypotenuse, and nought of nothing', () => {
    expect(rootSumSquares([3, -4])).toBe(5);
    expect(rootSumSquares([])).toBe(0);
  });
});
