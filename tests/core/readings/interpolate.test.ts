import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { interpolate } from '../../../src/core/readings/interpolate.ts';

const table = [
  [0, 0],
  [10, 100],
  [20, 150],
] as const;

describe('interpolate', () => {
  it.each([
    [5, 50, null],
    [10, 100, null],
    [12, 110, null],
    [0, 0, 'low'],
    [20, 150, 'high'],
    [-3, 0, 'low'],
    [44, 150, 'high'],
  ])('at %s gives %s and the end %s', (x, value, end) => {
    expect(interpolate(table, x)).toMatchObject({ value, end });
  });

  it('has the slope of the piece that it is on, and none beyond the ends', () => {
    expect(interpolate(table, 5).slope).toBeCloseTo(10, 5);
    expect(interpolate(table, 15).slope).toBeCloseTo(5, 5);
    expect(interpolate(table, 30).slope).toBe(0);
  });

  it('takes the slope over what is not known of x, so that a corner is not one-sided', () => {
    expect(interpolate(table, 10, 2).slope).toBeCloseTo(7.5, 12);
    expect(interpolate(table, 21, 2).slope).toBeCloseTo(1.25, 12);
  });

  it('holds one point everywhere, and finds a table without points a bug', () => {
    expect(interpolate([[3, 7]], 100).value).toBe(7);
    expect(() => interpolate([], 1)).toThrow();
  });

  it('stays between its neighbours, meets every point, and rises where the table does', () => {
    const rising = fc
      .uniqueArray(fc.integer({ min: -100, max: 100 }), { minLength: 2, maxLength: 8 })
      .map((xs) => xs.toSorted((a, b) => a - b).map((x) => [x, 2 * x + 1] as const));
    fc.assert(
      fc.property(rising, fc.double({ min: -120, max: 120, noNaN: true }), (points, x) => {
        const first = points[0]?.[0] ?? 0;
        const last = points.at(-1)?.[0] ?? 0;
        const clamped = Math.min(Math.max(x, first), last);
        // The points lie on one line, so every piece between them does.
        expect(interpolate(points, x).value).toBeCloseTo(2 * clamped + 1, 9);
        for (const [at, y] of points) expect(interpolate(points, at).value).toBeCloseTo(y, 12);
      }),
    );
  });
});
