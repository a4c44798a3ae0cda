import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Estimate } from '../../../src/core/readings/estimate.ts';
import { sensorHeight, trendOf } from '../../../src/core/readings/heights.ts';

const volts = (value: number, scatter = 0): Estimate => ({
  value,
  unit: 'V',
  scatter,
  scatterFrom: 'resolution',
  instrument: 'module',
  offset: 0,
  offsetOf: 'module',
  gain: 0,
});

const two = {
  points: [
    [1.2, 360],
    [2.4, 420],
  ],
  from: 'wheel-centre',
} as const;
const bent = {
  points: [
    [1, 300],
    [2, 400],
    [3, 420],
  ],
  from: 'floor',
} as const;

describe('volts to millimetres', () => {
  it.each([
    [1.2, 360, false],
    [1.8, 390, false],
    [2.4, 420, false],
    [2.5, 425, true],
    [0.6, 330, true],
  ])('%s V through two pairs: %s mm, extrapolated: %s', (at, height, extrapolated) => {
    const found = sensorHeight(volts(at), two);
    expect(found.height).toBeCloseTo(height, 9);
    expect(found.term.sensitivity).toBeCloseTo(50, 4);
    expect(found.extrapolated).toBe(extrapolated);
  });

  it.each([
    [1.5, 350, 100],
    [2, 400, 60],
    [2.5, 410, 20],
    [0.5, 250, 100],
    [4, 440, 20],
  ])('%s V through three pairs: %s mm, at %s mm a volt', (at, height, slope) => {
    const found = sensorHeight(volts(at, 0.01), bent);
    expect(found.height).toBeCloseTo(height, 9);
    // On the bend the slope is the mean of both sides.
    expect(found.term.sensitivity).toBeCloseTo(slope, 6);
  });

  it('goes on a straight line wherever the pairs lie on one', () => {
    const line = fc.tuple(
      fc.uniqueArray(fc.integer({ min: 0, max: 500 }), { minLength: 2, maxLength: 6 }),
      fc.integer({ min: -100, max: 100 }).filter((slope) => slope !== 0),
      fc.double({ min: -1, max: 6, noNaN: true }),
    );
    fc.assert(
      fc.property(line, ([hundredths, slope, at]) => {
        const points = hundredths
          .toSorted((a, b) => a - b)
          .map((one) => [one / 100, 400 + (slope * one) / 100] as const);
        const found = sensorHeight(volts(at, 0.02), { points, from: 'floor' });
        expect(found.height).toBeCloseTo(400 + slope * at, 6);
        expect(found.term.sensitivity).toBeCloseTo(slope, 6);
        expect(found.extrapolated).toBe(at < (points[0]?.[0] ?? 0) || at > (points.at(-1)?.[0] ?? 0));
      }),
    );
  });

  it('finds a table of one pair a bug', () => {
    expect(() => sensorHeight(volts(1), { points: [[1, 300]], from: 'floor' })).toThrow();
  });
});

describe('the way a table goes', () => {
  it.each([
    [
      [
        [1, 300],
        [2, 400],
      ],
      'rising',
    ],
    [
      [
        [1, 400],
        [2, 300],
        [3, 299],
      ],
      'falling',
    ],
    [
      [
        [1, 300],
        [2, 400],
        [3, 399],
      ],
      null,
    ],
    [
      [
        [1, 300],
        [2, 300],
      ],
      null,
    ],
    [
      [
        [1, 300],
        [1, 310],
      ],
      null,
    ],
    [[[1, 300]], null],
  ] as const)('%j: %s', (points, trend) => {
    expect(trendOf(points)).toBe(trend);
  });
});
