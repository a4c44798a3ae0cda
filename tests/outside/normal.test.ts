import { erf } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { normalCdf } from '../../src/core/readings/normal.ts';

describe('the normal distribution function', () => {
  // Values from memory, recomputed: JCGM 106:2012, table 1, rounded as printed there.
  it.each([
    [0.84, 0.8, 2],
    [1.28, 0.9, 2],
    [1.64, 0.95, 2],
    [2.33, 0.99, 2],
    [3.09, 0.999, 3],
  ])('at z = %s is %s (JCGM 106:2012, table 1)', (z, share, places) => {
    expect(Number(normalCdf(z).toFixed(places))).toBe(share);
  });

  it.each([-5, -3.5, -2.4999, -1, -0.1, 0, 0.3, 1, 2.5, 3.6, 5])(
    'at z = %s agrees with the error function of a general-purpose library: Φ(z) = (1 + erf(z/√2))/2',
    (z) => {
      expect(normalCdf(z)).toBeCloseTo((1 + erf(z / Math.SQRT2)) / 2, 12);
    },
  );
});
