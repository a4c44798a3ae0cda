import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLine } from '../../../src/core/readings/line-fit.ts';

describe('fitLine', () => {
  it('finds the line that exact points lie on, with no error to speak of', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 0, max: 600 }), { minLength: 3, maxLength: 12 }),
        fc.integer({ min: -50, max: 50 }),
        fc.integer({ min: -500, max: 500 }),
        (xs, slope, intercept) => {
          const line = fitLine(
            xs,
            xs.map((x) => slope * x + intercept),
          );
          expect(line.slope).toBeCloseTo(slope, 8);
          expect(line.intercept).toBeCloseTo(intercept, 6);
          expect(line.slopeError).toBeCloseTo(0, 6);
        },
      ),
    );
  });

  it('has no error of the slope from two points, which any line fits', () => {
    expect(fitLine([0, 5], [90, 110])).toMatchObject({
      slope: 4,
      intercept: 90,
      sxx: 12.5,
      slopeError: null,
    });
  });

  it('shares its error with the scatter about the line', () => {
    // Residuals −1, 2, −1 about the mean line: s² = 6/1 and Σ(x − x̄)² = 2.
    const line = fitLine([0, 1, 2], [0, 3, 0]);
    expect(line.slope).toBeCloseTo(0, 12);
    expect(line.slopeError).toBeCloseTo(Math.sqrt(6 / 2), 12);
  });
});
