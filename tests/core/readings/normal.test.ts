import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalCdf } from '../../../src/core/readings/normal.ts';

const anyZ = fc.double({ min: -9, max: 9, noNaN: true });

describe('normalCdf', () => {
  it('is a half at nought, 0 and 1 at the ends, and passes NaN on', () => {
    expect(normalCdf(0)).toBe(0.5);
    expect(normalCdf(Number.NEGATIVE_INFINITY)).toBe(0);
    expect(normalCdf(Number.POSITIVE_INFINITY)).toBe(1);
    expect(normalCdf(Number.NaN)).toBeNaN();
  });

  it('keeps the digits of a small lower tail: Φ(−8) is 6.2e−16', () => {
    expect(normalCdf(-8) * 1e16).toBeCloseTo(6.2209605742718, 8);
  });

  it('joins its two formulae smoothly where the error function meets 2.5', () => {
    const seam = 2.5 * Math.SQRT2;
    const step = 1e-9;
    expect(normalCdf(-seam - step) / normalCdf(-seam + step)).toBeCloseTo(1, 7);
  });

  it('is symmetric, rising and a probability', () => {
    fc.assert(
      fc.property(anyZ, anyZ, (a, b) => {
        expect(normalCdf(a) + normalCdf(-a)).toBeCloseTo(1, 14);
        expect(normalCdf(a)).toBeGreaterThanOrEqual(0);
        expect(normalCdf(a)).toBeLessThanOrEqual(1);
        expect(normalCdf(Math.max(a, b)) - normalCdf(Math.min(a, b))).toBeGreaterThanOrEqual(-1e-15);
      }),
    );
  });
});
