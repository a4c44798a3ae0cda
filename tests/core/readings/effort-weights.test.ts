import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { effortWeights, type Run } from '../../../src/core/readings/effort-weights.ts';
import { likeliest } from '../../../src/core/readings/thirds.ts';

const limits = { gain: 15, stalled: 0.25, rated: 20, low: 0.6, high: 1.2, none: 1 };
const exact = (value: number) => ({ value, standard: 0 });
const word = (gain: number, current: number, port: Run['port'] = null): string =>
  likeliest(effortWeights({ gain: exact(gain), current: exact(current), port }, limits));

describe('what a compressor does with its current', () => {
  it.each([
    [15, 20, 'normal'],
    [14.9, 20, 'weak'],
    [14.9, 12, 'weak'],
    [0, 24.1, 'blocked'],
    [3.7, 24.1, 'blocked'],
    [3.8, 24.1, 'weak'],
    [3.7, 24, 'weak'],
    [0, 0.9, 'none'],
    [0, 1, 'weak'],
  ] as const)('%s psi/min on %s A is %s', (gain, current, says) => {
    expect(word(gain, current)).toBe(says);
  });

  it('goes by the exhaust port where the current is clearly low', () => {
    expect(word(5, 11.9, 'air-escapes')).toBe('free');
    expect(word(5, 11.9, 'quiet')).toBe('weak');
    expect(word(5, 12, 'air-escapes')).toBe('weak');
    const unseen = effortWeights({ gain: exact(5), current: exact(11.9), port: null }, limits);
    expect(unseen).toMatchObject({ weak: 0.5, free: 0.5 });
  });

  it('judges no current against a plate that nobody read, but says when there is none', () => {
    const without = { ...limits, rated: null };
    const at = (current: number): string =>
      likeliest(effortWeights({ gain: exact(0), current: exact(current), port: null }, without));
    expect(at(40)).toBe('weak');
    expect(at(0.5)).toBe('none');
  });

  it('has chances that add up to one', () => {
    const uncertain = fc.record({
      value: fc.double({ min: 0, max: 40, noNaN: true }),
      standard: fc.double({ min: 0, max: 5, noNaN: true }),
    });
    const port = fc.constantFrom<Run['port']>(null, 'air-escapes', 'quiet');
    fc.assert(
      fc.property(uncertain, uncertain, port, (gain, current, found) => {
        const weights = effortWeights({ gain, current, port: found }, limits);
        expect(Object.values(weights).reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 9);
        expect(Math.min(...Object.values(weights))).toBeGreaterThanOrEqual(-1e-12);
      }),
    );
  });
});
