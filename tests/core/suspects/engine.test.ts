import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Action, Probe } from '../../../src/core/suspects/decision.ts';
import { hittingSets, smallestConflicts } from '../../../src/core/suspects/hitting-sets.ts';
import { chanceOf, entropy, expectedInformation } from '../../../src/core/suspects/information.ts';
import {
  leastRisk,
  riskByTesting,
  valueOfPerfectInformation,
  valueTests,
} from '../../../src/core/suspects/look-ahead.ts';
import { mixture, normalised, points, posterior } from '../../../src/core/suspects/posterior.ts';

const weight = fc.double({ min: 0.01, max: 1, noNaN: true });
const settings = { seed: 11, numRuns: 200 };

/** A small problem: hypotheses, actions, tests whose columns sum to 1. */
const problem = fc.integer({ min: 2, max: 4 }).chain((size) =>
  fc.record({
    p: fc.array(weight, { minLength: size, maxLength: size }).map((weights) => normalised(weights)),
    actions: fc
      .array(fc.array(fc.integer({ min: 0, max: 500 }), { minLength: size, maxLength: size }), {
        minLength: 1,
        maxLength: 3,
      })
      .map((all) => all.map((losses, index): Action => ({ id: `action-${index}`, losses }))),
    probes: fc
      .array(
        fc.record({
          cost: fc.integer({ min: 0, max: 40 }),
          shared: fc.boolean(),
          columns: fc.array(fc.tuple(weight, weight), { minLength: size, maxLength: size }),
        }),
        { minLength: 1, maxLength: 3 },
      )
      .map((all) =>
        all.map(({ cost, shared, columns }, index): Probe => {
          const shares = columns.map((column) => normalised(column));
          return {
            id: `probe-${index}`,
            cost,
            setUp: shared ? { id: 'stands', cost: 15 } : null,
            outcomes: [0, 1].map((outcome) => shares.map((share) => share[outcome] ?? 0)),
          };
        }),
      ),
  }),
);

describe('posterior', () => {
  it('sums to 1, and the order of evidence does not matter', () => {
    fc.assert(
      fc.property(
        fc.array(weight, { minLength: 3, maxLength: 3 }),
        fc.array(fc.array(weight, { minLength: 3, maxLength: 3 }), { maxLength: 6 }),
        (priors, rows) => {
          const p = posterior(priors, rows);
          expect(p.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 12);
          for (const [index, one] of posterior(priors, [...rows].reverse()).entries()) {
            expect(one).toBeCloseTo(p[index] ?? Number.NaN, 12);
          }
        },
      ),
      settings,
    );
  });

  it('is unmoved by evidence that all hypotheses expect alike', () => {
    expect(posterior([1, 3], [[0.4, 0.4]])).toEqual(posterior([1, 3], []));
  });

  it('keeps the priors where the evidence rules everything out, and survives very many pieces of evidence', () => {
    expect(posterior([1, 3], [[0, 0]])).toEqual([0.25, 0.75]);
    const p = posterior(
      [1, 1],
      Array.from({ length: 2000 }, () => [1e-3, 2e-3]),
    );
    expect(p[0]).toBeLessThan(1e-12);
    expect(p[1]).toBeCloseTo(1, 12);
  });

  it('points of independent evidence add up to those of all of it', () => {
    expect(points(0.8, 0.2) + points(0.3, 0.6)).toBeCloseTo(points(0.8 * 0.3, 0.2 * 0.6), 12);
  });

  it('a mixture of one sure observation is that one', () => {
    expect(mixture([1, 0], [0.85, 0.15])).toBe(0.85);
    expect(mixture([0.5, 0.5], [0.85, 0.15])).toBeCloseTo(0.5, 12);
  });
});

describe('information', () => {
  it('is between nothing and all that is not known', () => {
    fc.assert(
      fc.property(problem, ({ p, probes }) => {
        for (const { outcomes } of probes) {
          const bits = expectedInformation(p, outcomes);
          expect(bits).toBeGreaterThanOrEqual(0);
          expect(bits).toBeLessThanOrEqual(entropy(p) + 1e-9);
          expect(outcomes.reduce((sum, outcome) => sum + chanceOf(p, outcome), 0)).toBeCloseTo(1, 9);
        }
      }),
      settings,
    );
  });
});

/** The best policy of at most two tests by trying every one of them: an oracle that shares no code with the search. */
const bestPolicy = (p: readonly number[], actions: readonly Action[], probes: readonly Probe[]): number => {
  const losing = (joint: readonly number[]): number =>
    Math.min(
      ...actions.map(({ losses }) => joint.reduce((sum, one, index) => sum + one * (losses[index] ?? 0), 0)),
    );
  const split = (joint: readonly number[], probe: Probe): number[][] =>
    probe.outcomes.map((outcome) => joint.map((one, index) => one * (outcome[index] ?? 0)));
  const mass = (joint: readonly number[]): number => joint.reduce((sum, one) => sum + one, 0);
  const choices = [losing(p)];
  for (const first of probes) {
    let total = first.cost + (first.setUp?.cost ?? 0);
    for (const joint of split(p, first)) {
      const seconds = probes
        .filter((probe) => probe !== first)
        .map((second) => {
          const again = second.setUp && second.setUp.id !== first.setUp?.id ? second.setUp.cost : 0;
          const paid = mass(joint) * (second.cost + again);
          return paid + split(joint, second).reduce((sum, one) => sum + losing(one), 0);
        });
      total += Math.min(losing(joint), ...seconds);
    }
    choices.push(total);
  }
  return Math.min(...choices);
};

describe('looking ahead', () => {
  it('finds the best policy of two tests that trying all of them finds', () => {
    fc.assert(
      fc.property(problem, ({ p, actions, probes }) => {
        expect(riskByTesting(p, actions, probes, 2)).toBeCloseTo(bestPolicy(p, actions, probes), 6);
      }),
      settings,
    );
  });

  it('more tests never lose, and no test is worth more than knowing', () => {
    fc.assert(
      fc.property(problem, ({ p, actions, probes }) => {
        const now = leastRisk(p, actions).risk;
        const one = riskByTesting(p, actions, probes, 1);
        const two = riskByTesting(p, actions, probes, 2);
        expect(one).toBeLessThanOrEqual(now + 1e-9);
        expect(two).toBeLessThanOrEqual(one + 1e-9);
        const free = probes.map((probe) => ({ ...probe, cost: 0, setUp: null }));
        for (const { value } of valueTests(p, actions, free, { depth: 1 })) {
          expect(value).toBeGreaterThanOrEqual(-1e-9);
          expect(value).toBeLessThanOrEqual(valueOfPerfectInformation(p, actions) + 1e-9);
        }
      }),
      settings,
    );
  });

  it('charges a shared preparation once, and not at all where it is there', () => {
    const probe = (id: string): Probe => ({
      id,
      cost: 1,
      setUp: { id: 'stands', cost: 10 },
      outcomes: [
        [1, 0],
        [0, 1],
      ],
    });
    const actions = [
      { id: 'a', losses: [0, 100] },
      { id: 'b', losses: [100, 0] },
    ];
    const [fresh] = valueTests([0.5, 0.5], actions, [probe('x')]);
    const [ready] = valueTests([0.5, 0.5], actions, [probe('x')], { done: new Set(['stands']) });
    expect(fresh?.value).toBeCloseTo(39, 12);
    expect(ready?.value).toBeCloseTo(49, 12);
  });

  it('sees a pair of tests that only pays together', () => {
    // Two coins; only their agreement tells, so either alone is useless.
    const p = [0.25, 0.25, 0.25, 0.25];
    const coin = (id: string, heads: readonly number[]): Probe => ({
      id,
      cost: 5,
      setUp: null,
      outcomes: [heads, heads.map((one) => 1 - one)],
    });
    const probes = [coin('first', [1, 1, 0, 0]), coin('second', [1, 0, 1, 0])];
    const actions = [
      { id: 'same', losses: [0, 100, 100, 0] },
      { id: 'differ', losses: [100, 0, 0, 100] },
    ];
    const values = (depth: number): number[] =>
      valueTests(p, actions, probes, { depth: depth }).map(({ value }) => value);
    expect(values(1)).toEqual([-5, -5]);
    expect(values(2)).toEqual([40, 40]);
  });

  it('needs something to choose from', () => {
    expect(() => leastRisk([1], [])).toThrow('no action');
  });
});

describe('hitting sets', () => {
  const conflicts = fc.array(
    fc.uniqueArray(fc.constantFrom('a', 'b', 'c', 'd', 'e'), { minLength: 1, maxLength: 4 }),
    { maxLength: 5 },
  );

  it('are those that trying every subset finds', () => {
    fc.assert(
      fc.property(conflicts, (all) => {
        const names = ['a', 'b', 'c', 'd', 'e'];
        const subsets = Array.from({ length: 32 }, (_, bits) =>
          names.filter((_name, place) => bits & (1 << place)),
        );
        const hits = subsets.filter((set) =>
          all.every((conflict) => conflict.some((one) => set.includes(one))),
        );
        const smallest = hits.filter(
          (set) =>
            !hits.some((other) => other.length < set.length && other.every((one) => set.includes(one))),
        );
        const text = (sets: readonly (readonly string[])[]): string[] =>
          sets.map((set) => set.join(' ')).sort();
        expect(text(hittingSets(all))).toEqual(text(smallest));
      }),
      settings,
    );
  });

  it('without conflicts is the empty diagnosis, and a conflict of nothing allows none', () => {
    expect(hittingSets([])).toEqual([[]]);
    expect(hittingSets([[]])).toEqual([]);
  });

  it('names the findings that no suspect explains together', () => {
    expect(smallestConflicts([['low-supply'], ['corner-off']])).toEqual([['corner-off', 'low-supply']]);
    expect(smallestConflicts([['low-supply'], []])).toEqual([]);
  });
});
