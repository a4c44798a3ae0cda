import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { OutcomeTable } from '../../../../src/core/suspects/information.ts';
import { normalised } from '../../../../src/core/suspects/posterior.ts';
import { leastError, overlap, overlapIn } from '../../../../src/core/suspects/proof/overlap.ts';

const weight = fc.double({ min: 0.01, max: 1, noNaN: true });
const settings = { seed: 17, numRuns: 200 };

/** Observations of two hypotheses: each a table of values with the likelihood under both. */
const observations = fc.array(
  fc.array(fc.tuple(weight, weight), { minLength: 2, maxLength: 4 }).map((values): OutcomeTable => {
    const [p, q] = [normalised(values.map(([one]) => one)), normalised(values.map(([, other]) => other))];
    return values.map((_, place) => [p[place] ?? 0, q[place] ?? 0]);
  }),
  { minLength: 1, maxLength: 4 },
);

/** Both likelihoods of every way in which all observations together can turn out. */
const everyWay = (tables: readonly OutcomeTable[]): (readonly [number, number])[] =>
  tables.reduce<(readonly [number, number])[]>(
    (ways, table) =>
      ways.flatMap(([p, q]) => table.map(([a = 0, b = 0]): [number, number] => [p * a, q * b])),
    [[1, 1]],
  );

describe('overlap', () => {
  it('is 1 of two that are the same, 0 of two that have nothing in common', () => {
    expect(overlap([0.2, 0.3, 0.5], [0.2, 0.3, 0.5])).toBeCloseTo(1, 12);
    expect(overlap([1, 0], [0, 1])).toBe(0);
  });

  it('of a fair and a biased coin, by hand: √(½·9/10) + √(½·1/10)', () => {
    expect(overlap([0.5, 0.5], [0.9, 0.1])).toBeCloseTo(0.670820393 + 0.2236067977, 9);
  });

  it('scales weights that do not sum to 1', () => {
    expect(overlap([2, 2], [9, 1])).toBeCloseTo(overlap([0.5, 0.5], [0.9, 0.1]), 12);
  });

  it('of independent observations is that of all ways in which they can turn out together', () => {
    fc.assert(
      fc.property(observations, (tables) => {
        const joint = everyWay(tables).reduce((sum, [p, q]) => sum + Math.sqrt(p * q), 0);
        expect(overlapIn(tables, 0, 1)).toBeCloseTo(joint, 10);
      }),
      settings,
    );
  });
});

describe('the least error', () => {
  it('is exact for two that mirror each other: one in four, at three to one', () => {
    expect(leastError(overlap([0.75, 0.25], [0.25, 0.75]))).toBeCloseTo(0.25, 12);
    expect(leastError(0)).toBe(0);
    expect(leastError(1)).toBe(0.5);
  });

  it('and half the overlap hold the best rule between them, counted out over every way', () => {
    fc.assert(
      fc.property(observations, (tables) => {
        // The best rule names the likelier of the two, and is wrong as often as the other was at fault.
        const wrong = everyWay(tables).reduce((sum, [p, q]) => sum + Math.min(p, q) / 2, 0);
        const rho = overlapIn(tables, 0, 1);
        expect(wrong).toBeGreaterThanOrEqual(leastError(rho) - 1e-9);
        expect(wrong).toBeLessThanOrEqual(rho / 2 + 1e-9);
      }),
      settings,
    );
  });
});
