import { describe, expect, it } from 'vitest';
import { judge } from '../../../src/core/readings/verdict.ts';

const limits = { low: 1, high: 2 };

describe('judge', () => {
  it.each([
    [1.5, 0.1, 'within', null],
    [1.1, 0.1, 'within', null],
    [1.05, 0.1, 'too-close', 'low'],
    [0.95, 0.1, 'too-close', 'low'],
    [0.89, 0.1, 'out', 'low'],
    [1.95, 0.1, 'too-close', 'high'],
    [2.11, 0.1, 'out', 'high'],
  ])('says of %s ± %s: %s', (value, expanded, verdict, side) => {
    expect(judge(value, expanded, limits)).toEqual({ verdict, side });
  });

  it('compares the bare value where a check decides simply', () => {
    expect(judge(1.01, 0.1, limits, 'simple').verdict).toBe('within');
    expect(judge(0.99, 0.1, limits, 'simple').verdict).toBe('out');
  });
});
