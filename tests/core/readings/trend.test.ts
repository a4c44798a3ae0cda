import { describe, expect, it } from 'vitest';
import type { Estimate } from '../../../src/core/readings/estimate.ts';
import { settleTrend } from '../../../src/core/readings/settle-trend.ts';
import { trendOf } from '../../../src/core/readings/trend.ts';

const estimate = (value: number, more: Partial<Estimate> = {}): Estimate => ({
  value,
  unit: 'psi',
  scatter: 0.3,
  scatterFrom: 'resolution',
  instrument: 'gauge',
  offset: 0,
  offsetOf: 'gauge',
  gain: 0,
  ...more,
});
const trend = (
  values: readonly number[],
  more: Partial<Estimate> = {},
  clock = 0,
  besides?: Parameters<typeof trendOf>[1],
) =>
  trendOf(
    values.map((value, time) => ({
      time,
      clock,
      value,
      terms: [{ estimate: estimate(value, more), sensitivity: 1 }],
    })),
    besides,
  );
/** Student's factor for one degree of freedom, tan(0.475 π), which tables print as 12.706. */
const ofOne = Math.tan(0.475 * Math.PI);
const half = ({ factor, spread }: ReturnType<typeof trendOf>): number => factor * spread.total;

describe('the slope of a trend', () => {
  it('carries readings and clock by their share in the slope', () => {
    // Σ(t − t̄)² of 0, 1, 2 is 2.
    expect(half(trend([10, 20, 30]))).toBeCloseTo(2 * (0.3 / Math.SQRT2), 12);
    expect(half(trend([10, 20, 30], {}, 0.01))).toBeCloseTo(
      2 * Math.hypot(0.3, 10 * 0.01) * Math.SQRT1_2,
      12,
    );
  });

  it('takes Student’s factor for the scatter about the line, and 2 for what the instrument brings in', () => {
    const bent = trend([10, 16, 10], { gain: 0 });
    // Residuals −2, 4, −2: s² = 24 and the standard error √(24/2).
    expect(half(bent)).toBeCloseTo(ofOne * Math.sqrt(12), 9);
    const sloped = trend([10, 26, 30], { gain: 0.05 });
    expect(half(sloped)).toBeCloseTo(Math.hypot(ofOne * Math.sqrt(12), (2 * 0.05 * 10) / Math.sqrt(3)), 9);
  });

  it('has a fixed error cancel within one instrument', () => {
    expect(half(trend([10, 20, 30], { offset: 5 }))).toBeCloseTo(half(trend([10, 20, 30])), 9);
  });

  it('has it cancel within one channel of a module, too', () => {
    const channel = { instrument: 'module', offset: 5, offsetOf: 'tank' };
    expect(half(trend([10, 20, 30], channel))).toBeCloseTo(half(trend([10, 20, 30])), 9);
  });

  it('takes a fixed error that is another one at each reading as scatter', () => {
    const { spread } = trend([10, 20, 30], { instrument: 'tape', offset: 3, offsetOf: null });
    expect(spread.scatter).toBeCloseTo(Math.hypot(3 / Math.sqrt(3), 0.3) / Math.SQRT2, 12);
    expect(spread.accuracy).toBe(0);
  });

  it('adds what no reading brings in', () => {
    const { spread } = trend([10, 20, 30], {}, 0, { standard: 0.4, from: 'temperature' });
    expect(spread.accuracy).toBeCloseTo(0.4, 12);
    expect(spread.besides).toEqual({ standard: 0.4, from: 'temperature' });
  });

  it('has none to speak of from exact points', () => {
    const exact = trendOf([0, 1, 2].map((time) => ({ time, clock: 0, value: 3 * time, terms: [] })));
    expect([exact.slope, half(exact)]).toEqual([3, 0]);
  });
});

describe('what settles a rate', () => {
  const limits = { low: null, high: 3 };
  const settled = (one: ReturnType<typeof trendOf>) => settleTrend(one.slope, one, limits, 'h');

  it('is a longer time where the last digit hides it', () => {
    // U = 0.42, room 0.2 over 2 h: 4.3 h at least.
    expect(settled(trend([0, 2.8, 5.6]))).toEqual({ how: 'longer-run', time: 4.3, unit: 'h' });
  });

  it('is more points where they do not lie on a line', () => {
    const bent = trend([0, 2.4, 2]);
    expect(bent.slopeError).not.toBeNull();
    expect(settled(bent)).toEqual({ how: 'repeat', times: expect.any(Number) });
    const { how, times } = settled(bent) as { how: string; times: number };
    expect([how, times > 3, times <= 12]).toEqual(['repeat', true, true]);
  });

  it('is the same time for a rate as far beyond its limit as another is inside', () => {
    expect(settled(trend([0, 3.2, 6.4]))).toEqual({ how: 'longer-run', time: 4.3, unit: 'h' });
  });

  it('asks for twelve points at the most', () => {
    // The middle one lies e off the line: the slope's standard error is e/√3, its room 1. Student's factor for 10
    // degrees of freedom over √(12/3) is 1.114.
    expect(settled(trend([0, 2 + 1.506, 4]))).toEqual({ how: 'repeat', times: 12 });
    expect(settled(trend([0, 2 + 1.6, 4]))).toMatchObject({ how: 'longer-run' });
  });

  it('is the air temperature where that is what is not known', () => {
    const besides = { standard: 0.5, from: 'temperature' } as const;
    expect(settled(trend([0, 2.5, 5], { scatter: 0.01 }, 0, besides))).toEqual({ how: 'state-air' });
  });

  it('is a longer time of which nobody can say how long where the instrument itself is in the way', () => {
    expect(settled(trend([0, 2.9, 5.8], { gain: 0.2 }))).toEqual({
      how: 'longer-run',
      time: null,
      unit: 'h',
    });
  });

  it('is nothing where it lies on the limit', () => {
    expect(settled(trend([0, 3, 6]))).toEqual({ how: 'on-the-limit' });
  });
});
