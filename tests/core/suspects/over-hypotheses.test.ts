import { describe, expect, it } from 'vitest';
import { overHypotheses } from '../../../src/core/suspects/over-hypotheses.ts';

describe('a table over hypotheses', () => {
  it('takes each way of failing with its part, and what fails in one way as it is', () => {
    const variants = [
      { of: 0, part: 0.25 },
      { of: 0, part: 0.75 },
      { of: 1, part: 1 },
    ];
    const table = [
      [0.8, 0.4, 0.1],
      [0.2, 0.6, 0.9],
    ];
    expect(overHypotheses(table, variants, 2)).toEqual([
      [0.25 * 0.8 + 0.75 * 0.4, 0.1],
      [0.25 * 0.2 + 0.75 * 0.6, 0.9],
    ]);
  });

  it('knows nothing of a hypothesis that has no way of being so', () => {
    expect(overHypotheses([[0.5]], [{ of: 1, part: 1 }], 2)).toEqual([[0, 0.5]]);
  });
});
