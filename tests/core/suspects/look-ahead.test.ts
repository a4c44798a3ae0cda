import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Action, Probe } from '../../../src/core/suspects/decision.ts';
import { riskByTesting, valueTests } from '../../../src/core/suspects/look-ahead.ts';
import { normalised } from '../../../src/core/suspects/posterior.ts';

const weight = fc.double({ min: 0.001, max: 1, noNaN: true });
const settings = { seed: 23, numRuns: 300 };

/** Actions as parts are: each right under one hypothesis or two, and one that loses the same under all. */
const actionsFor = (size: number): fc.Arbitrary<Action[]> =>
  fc
    .record({
      wrong: fc.array(fc.integer({ min: 1, max: 900 }), { minLength: size, maxLength: size }),
      also: fc.array(fc.integer({ min: 0, max: size - 1 }), { minLength: size, maxLength: size }),
      escalate: fc.integer({ min: 1, max: 400 }),
      // What is listed by nobody has no right part: then something is lost whatever is known.
      listed: fc.integer({ min: 1, max: size }),
    })
    .map(({ wrong, also, escalate, listed }) => [
      ...wrong.slice(0, listed).map((cost, own) => ({
        id: `part-${own}`,
        losses: wrong.map((_, index) => (index === own || index === also[own] ? 0 : cost + escalate)),
      })),
      { id: 'escalate', losses: wrong.map(() => escalate) },
    ]);

const probeFor = (size: number): fc.Arbitrary<Omit<Probe, 'id'>> =>
  fc
    .record({
      cost: fc.integer({ min: 0, max: 60 }),
      shared: fc.constantFrom(null, 'stands', 'asleep'),
      outcomes: fc.integer({ min: 2, max: 4 }),
      weights: fc.array(fc.array(weight, { minLength: 4, maxLength: 4 }), {
        minLength: size,
        maxLength: size,
      }),
    })
    .map(({ cost, shared, outcomes, weights }) => {
      const columns = weights.map((column) => normalised(column.slice(0, outcomes)));
      return {
        cost,
        setUp: shared === null ? null : { id: shared, cost: shared === 'stands' ? 12 : 5 },
        outcomes: Array.from({ length: outcomes }, (_, outcome) => columns.map((one) => one[outcome] ?? 0)),
      };
    });

const problem = fc.integer({ min: 2, max: 6 }).chain((size) =>
  fc.record({
    p: fc.array(weight, { minLength: size, maxLength: size }).map((weights) => normalised(weights)),
    actions: actionsFor(size),
    probes: fc
      .array(probeFor(size), { minLength: 1, maxLength: 5 })
      .map((all) => all.map((one, index): Probe => ({ ...one, id: `test-${index}` }))),
  }),
);

/** Every branch to its end: the expected loss of the best action, or of the best test and what comes after it. */
const exhaustive = (
  joint: readonly number[],
  actions: readonly Action[],
  probes: readonly Probe[],
  done: readonly string[],
  depth: number,
): number => {
  const losses = actions.map(({ losses: of }) =>
    joint.reduce((sum, p, index) => sum + p * (of[index] ?? 0), 0),
  );
  const tests = depth === 0 ? [] : probes.map((probe) => riskOf(probe, joint, actions, probes, done, depth));
  return Math.min(...losses, ...tests);
};

const riskOf = (
  probe: Probe,
  joint: readonly number[],
  actions: readonly Action[],
  probes: readonly Probe[],
  done: readonly string[],
  depth: number,
): number => {
  const { setUp, cost, outcomes } = probe;
  const price = cost + (setUp && !done.includes(setUp.id) ? setUp.cost : 0);
  const others = probes.filter((one) => one !== probe);
  const prepared = setUp ? [...done, setUp.id] : done;
  return outcomes.reduce(
    (sum, outcome) =>
      sum +
      exhaustive(
        joint.map((p, index) => p * (outcome[index] ?? 0)),
        actions,
        others,
        prepared,
        depth - 1,
      ),
    price * joint.reduce((sum, p) => sum + p, 0),
  );
};

describe('looking ahead', () => {
  it.each([1, 2, 3])('comes to what working out every branch comes to, %i tests in a row', (depth) => {
    fc.assert(
      fc.property(problem, ({ p, actions, probes }) => {
        const risk = exhaustive(p, actions, [], [], 0);
        expect(riskByTesting(p, actions, probes, depth)).toBeCloseTo(
          exhaustive(p, actions, probes, [], depth),
          9,
        );
        const valued = valueTests(p, actions, probes, { depth });
        expect(valued.map(({ probe }) => probe)).toEqual(probes);
        for (const { probe, value } of valued)
          expect(value).toBeCloseTo(risk - riskOf(probe, p, actions, probes, [], depth), 9);
      }),
      { ...settings, numRuns: depth === 3 ? 60 : settings.numRuns },
    );
  });

  it('charges no preparation that is there', () => {
    fc.assert(
      fc.property(problem, ({ p, actions, probes }) => {
        const risk = exhaustive(p, actions, [], [], 0);
        for (const { probe, value } of valueTests(p, actions, probes, { done: new Set(['stands']) }))
          expect(value).toBeCloseTo(risk - riskOf(probe, p, actions, probes, ['stands'], 2), 9);
      }),
      settings,
    );
  });

  it('leaves out just the tests that do not save more than is asked for', () => {
    fc.assert(
      fc.property(
        problem,
        fc.double({ min: -60, max: 200, noNaN: true }),
        ({ p, actions, probes }, least) => {
          const all = valueTests(p, actions, probes);
          const some = valueTests(p, actions, probes, { over: () => least });
          // What lies at the bound may fall either way.
          const clear = all.filter(({ value }) => Math.abs(value - least) > 1e-6);
          for (const { probe, value } of clear) {
            const found = some.find((one) => one.probe === probe);
            if (value > least) expect(found?.value).toBeCloseTo(value, 9);
            else expect(found).toBeUndefined();
          }
        },
      ),
      settings,
    );
  });
});
