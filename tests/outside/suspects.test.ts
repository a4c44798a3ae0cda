import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hittingSets } from '../../src/core/suspects/hitting-sets.ts';
import { chanceOf, entropy, expectedInformation } from '../../src/core/suspects/information.ts';
import { leastRisk, riskByTesting, valueTests } from '../../src/core/suspects/look-ahead.ts';
import { points, posterior } from '../../src/core/suspects/posterior.ts';
import { sureTestPaysUntil } from '../../src/core/suspects/stakes.ts';

/** Every combination of truth for some variables: the hypotheses of a small network, enumerated. */
const worlds = (names: readonly string[]): Readonly<Record<string, boolean>>[] =>
  names.reduce<Readonly<Record<string, boolean>>[]>(
    (found, name) => found.flatMap((world) => [true, false].map((value) => ({ ...world, [name]: value }))),
    [{}],
  );

const of = (p: number, value: boolean | undefined): number => (value ? p : 1 - p);

/** The probability that a variable is true, over worlds. */
const marginal = (
  name: string,
  all: readonly Readonly<Record<string, boolean>>[],
  p: readonly number[],
): number => p.reduce((sum, one, index) => sum + (all[index]?.[name] ? one : 0), 0);

describe('posteriors of published networks', () => {
  it("Pearl's alarm: both neighbours call", () => {
    // Russell and Norvig, Artificial Intelligence: A Modern Approach, figure 14.2, and the query below it: 0.284.
    const all = worlds(['burglary', 'earthquake', 'alarm']);
    const rings = ({ burglary, earthquake }: Readonly<Record<string, boolean>>): number =>
      burglary ? (earthquake ? 0.95 : 0.94) : earthquake ? 0.29 : 0.001;
    const priors = all.map(
      (world) => of(0.001, world.burglary) * of(0.002, world.earthquake) * of(rings(world), world.alarm),
    );
    const john = all.map(({ alarm }) => (alarm ? 0.9 : 0.05));
    const mary = all.map(({ alarm }) => (alarm ? 0.7 : 0.01));
    expect(marginal('burglary', all, posterior(priors, [john, mary]))).toBeCloseTo(0.284_171_835_4, 9);
  });

  it('a visit to Asia and dyspnoea', () => {
    // Lauritzen and Spiegelhalter, Local computations with probabilities on graphical structures (1988): the tables.
    const all = worlds(['tub', 'smoke', 'lung', 'bronc']);
    const priors = all.map(
      ({ tub, smoke, lung, bronc }) =>
        of(0.05, tub) * of(0.5, smoke) * of(smoke ? 0.1 : 0.01, lung) * of(smoke ? 0.6 : 0.3, bronc),
    );
    const dyspnoea = all.map(({ tub, lung, bronc }) =>
      bronc ? (tub || lung ? 0.9 : 0.8) : tub || lung ? 0.7 : 0.1,
    );
    const p = posterior(priors, [dyspnoea]);
    expect(marginal('tub', all, p)).toBeCloseTo(0.087_751, 7);
    expect(marginal('lung', all, p)).toBeCloseTo(0.099_525_1, 7);
    expect(marginal('bronc', all, p)).toBeCloseTo(0.811_402_1, 7);
  });

  it('a report of people leaving: tampering or fire', () => {
    // Poole and Mackworth, Artificial Intelligence: Foundations of Computational Agents, the fire alarm: the tables;
    // the posteriors are values from memory, computed again here.
    const all = worlds(['tamper', 'fire', 'alarm', 'leaving']);
    const rings = ({ tamper, fire }: Readonly<Record<string, boolean>>): number =>
      tamper ? (fire ? 0.5 : 0.85) : fire ? 0.99 : 0.0001;
    const priors = all.map(
      (world) =>
        of(0.02, world.tamper) *
        of(0.01, world.fire) *
        of(rings(world), world.alarm) *
        of(world.alarm ? 0.88 : 0.001, world.leaving),
    );
    const p = posterior(priors, [all.map(({ leaving }) => (leaving ? 0.75 : 0.01))]);
    expect(marginal('tamper', all, p)).toBeCloseTo(0.399_169, 6);
    expect(marginal('fire', all, p)).toBeCloseTo(0.230_505, 6);
  });

  it('a mammogram that is positive', () => {
    // Eddy (1982) as usually told: 1 %, 80 %, 9.6 %; value from memory.
    expect(posterior([0.01, 0.99], [[0.8, 0.096]])[0]).toBeCloseTo(0.0776, 4);
  });

  it('fever of several causes, each of which may be held back', () => {
    // Russell and Norvig, noisy-OR: inhibitors 0.6, 0.2, 0.1; values from memory.
    const fever = (inhibitors: readonly number[]): number => {
      const all = worlds(inhibitors.map((_, index) => `held-${index}`));
      const chances = all.map((world) =>
        inhibitors.reduce((p, q, index) => p * of(q, world[`held-${index}`]), 1),
      );
      return chanceOf(
        chances,
        all.map((world) => (Object.values(world).every(Boolean) ? 0 : 1)),
      );
    };
    expect(fever([0.6, 0.2])).toBeCloseTo(0.88, 12);
    expect(fever([0.6, 0.2, 0.1])).toBeCloseTo(0.988, 12);
  });

  it('whether to play tennis: entropy, gain of the outlook, the sunny day', () => {
    // Mitchell, Machine Learning (1997), tables 3.2 and 6.1: 9 of 14 days; values from memory.
    const p = [9 / 14, 5 / 14];
    expect(entropy(p)).toBeCloseTo(0.9403, 4);
    const outlook = [
      [2 / 9, 3 / 5],
      [4 / 9, 0],
      [3 / 9, 2 / 5],
    ];
    expect(expectedInformation(p, outlook)).toBeCloseTo(0.2467, 4);
    const day = [
      [2 / 9, 3 / 5],
      [3 / 9, 1 / 5],
      [3 / 9, 4 / 5],
      [3 / 9, 3 / 5],
    ];
    expect(posterior(p, day)[1]).toBeCloseTo(0.7954, 4);
  });

  it('widgets of two machines, in points', () => {
    // Jaynes, Probability Theory: The Logic of Science, chapter 4: one in three bad against one in six; from memory.
    expect(points(1 / 3, 1 / 6)).toBeCloseTo(3.0103, 4);
    expect(points(2 / 3, 5 / 6)).toBeCloseTo(-0.9691, 4);
  });
});

describe('smallest diagnoses', () => {
  it('the polybox', () => {
    // de Kleer and Williams, Diagnosing multiple faults (1987): A…E = 3, 2, 2, 3, 3; F = 10, G = 12; from memory.
    expect(
      hittingSets([
        ['A1', 'M1', 'M2'],
        ['A1', 'A2', 'M1', 'M3'],
      ]),
    ).toEqual([['A1'], ['M1'], ['A2', 'M2'], ['M2', 'M3']]);
  });

  it('the full adder', () => {
    // Reiter, A theory of diagnosis from first principles (1987): inputs 1, 0, 1; sum 1, carry 0; from memory.
    expect(
      hittingSets([
        ['X1', 'X2'],
        ['X1', 'A2', 'O1'],
      ]),
    ).toEqual([['X1'], ['A2', 'X2'], ['O1', 'X2']]);
  });
});

describe('what a test is worth', () => {
  it('the oil wildcatter', () => {
    // Raiffa's problem as in Shenoy, Valuation-based systems for Bayesian decision analysis (1992): 22.5 with the
    // test; the table is a value from memory.
    const p = [0.5, 0.3, 0.2];
    const actions = [
      { id: 'drill', losses: [70, -50, -200] },
      { id: 'leave', losses: [0, 0, 0] },
    ];
    const seismic = {
      id: 'seismic',
      cost: 10,
      setUp: null,
      outcomes: [
        [0.6, 0.3, 0.1],
        [0.3, 0.4, 0.4],
        [0.1, 0.3, 0.5],
      ],
    };
    const without = -leastRisk(p, actions).risk;
    expect(without).toBeCloseTo(20, 12);
    const [valued] = valueTests(p, actions, [seismic]);
    expect(without + (valued?.value ?? 0)).toBeCloseTo(22.5, 12);
    expect(expectedInformation(p, seismic.outcomes)).toBeCloseTo(0.160_411, 6);
  });

  it('the used car: a test may inform and be worth nothing', () => {
    // Russell and Norvig, the exercise on buying a used car: quality 0.7, gain 500 or −200, pass 0.8 or 0.35.
    const p = [0.7, 0.3];
    const actions = [
      { id: 'buy', losses: [-500, 200] },
      { id: 'leave', losses: [0, 0] },
    ];
    const outcomes = [
      [0.8, 0.35],
      [0.2, 0.65],
    ];
    expect(-leastRisk(p, actions).risk).toBeCloseTo(290, 12);
    expect(posterior(p, [[0.8, 0.35]])[0]).toBeCloseTo(0.8421, 4);
    expect(posterior(p, [[0.2, 0.65]])[0]).toBeCloseTo(0.4179, 4);
    const [valued] = valueTests(p, actions, [{ id: 'test', cost: 50, setUp: null, outcomes }]);
    expect(valued?.value).toBeCloseTo(-50, 12);
    expect(expectedInformation(p, outcomes)).toBeCloseTo(0.1344, 4);
  });

  it('which to check first: by probability over cost', () => {
    // The rule of p / c for checks in a row: B. O. Koopman's theory of optimal search and J. B. Kadane (1968), from
    // memory; numbers computed by hand. Checked, then repaired, each in turn until it is found.
    const parts = [
      { id: 'module', p: 0.5, check: 60, repair: 900 },
      { id: 'ground', p: 0.3, check: 5, repair: 20 },
      { id: 'sensor', p: 0.2, check: 10, repair: 80 },
    ];
    const costOf = (order: readonly (typeof parts)[number][]): number =>
      order.reduce(
        ({ cost, left }, { p, check, repair }) => ({
          cost: cost + left * check + p * repair,
          left: left - p,
        }),
        { cost: 0, left: 1 },
      ).cost;
    const orders = parts.flatMap((a) =>
      parts.filter((b) => b !== a).map((b) => [a, b, ...parts.filter((c) => c !== a && c !== b)]),
    );
    const sorted = orders.sort((a, b) => costOf(a) - costOf(b));
    expect(sorted[0]?.map(({ id }) => id)).toEqual(['ground', 'sensor', 'module']);
    expect(costOf(sorted[0] ?? [])).toBeCloseTo(514, 9);
    expect(costOf(sorted.at(-1) ?? [])).toBeCloseTo(538.5, 9);

    // The same for the engine: each part can be checked for certain, nothing may be repaired unchecked (what is in
    // none of them is rare and ruinous), and the repairs are unavoidable, 472 on the average.
    const rare = 1e-9;
    const p = [...parts.map((one) => one.p * (1 - rare)), rare];
    const checks = parts.map(({ id, check }, place) => {
      const found = p.map((_, index) => (index === place ? 1 : 0));
      return { id, cost: check, setUp: null, outcomes: [found, found.map((one) => 1 - one)] };
    });
    const actions = [
      ...parts.map(({ id }, place) => ({ id, losses: p.map((_, index) => (index === place ? 0 : 1e12)) })),
      { id: 'leave', losses: p.map((_, index) => (index === 3 ? 0 : 1e4)) },
    ];
    const unavoidable = parts.reduce((sum, one) => sum + one.p * one.repair, 0);
    expect(unavoidable + riskByTesting(p, actions, checks, 3)).toBeCloseTo(514, 3);
    const [first] = valueTests(p, actions, checks, { depth: 3 }).sort((a, b) => b.value - a.value);
    expect(first?.probe.id).toBe('ground');
  });

  it('one action that mends several faults: p / c alone chooses badly', () => {
    // Numbers computed by hand: a0 mends all, a1 the second and fourth, a2 the first and third.
    const p = [0.2, 0.25, 0.4, 0.15];
    const actions = [
      { id: 'a0', cost: 6, mends: [true, true, true, true] },
      { id: 'a1', cost: 3, mends: [false, true, false, true] },
      { id: 'a2', cost: 4, mends: [true, false, true, false] },
    ];
    // A plan is a row of actions until one has mended it; its loss under each fault is what was spent by then.
    const orders = actions.flatMap((a) => [
      [a],
      ...actions.filter((b) => b !== a).map((b) => [a, b]),
      ...actions
        .filter((b) => b !== a)
        .flatMap((b) => actions.filter((c) => c !== a && c !== b).map((c) => [a, b, c])),
    ]);
    const plans = orders
      .filter((order) => p.every((_, fault) => order.some(({ mends }) => mends[fault])))
      .map((order) => ({
        id: order.map(({ id }) => id).join(' '),
        losses: p.map((_, fault) => {
          const mending = order.findIndex(({ mends }) => mends[fault]);
          return order.slice(0, mending + 1).reduce((sum, { cost }) => sum + cost, 0);
        }),
      }));
    const best = leastRisk(p, plans);
    expect(best.action.id).toBe('a2 a1');
    expect(best.risk).toBeCloseTo(5.2, 12);
    const pace = ({ cost, mends }: (typeof actions)[number]): number =>
      p.reduce((sum, one, fault) => sum + (mends[fault] ? one : 0), 0) / cost;
    const [greedy] = [...actions].sort((a, b) => pace(b) - pace(a));
    expect(greedy?.id).toBe('a0');
    expect(
      leastRisk(
        p,
        plans.filter(({ id }) => id === 'a0'),
      ).risk,
    ).toBeCloseTo(6, 12);
  });

  it('the closed forms: when to fix, and until when a sure test pays', () => {
    // Both follow from the losses: wrong part W + E, escalating E, right part 0.
    const [wrong, escalate, price] = [750, 350, 20];
    const action = { id: 'fix', losses: [0, wrong + escalate] };
    const actions = [action, { id: 'escalate', losses: [escalate, escalate] }];
    const sure = {
      id: 'sure',
      cost: price,
      setUp: null,
      outcomes: [
        [1, 0],
        [0, 1],
      ],
    };
    const fix = wrong / (wrong + escalate);
    const until = sureTestPaysUntil(price, wrong);
    expect(until).toBeCloseTo(1 - 20 / 750, 12);
    for (const shift of [-1e-6, 1e-6]) {
      expect(leastRisk([fix + shift, 1 - fix - shift], actions).action.id).toBe(
        shift > 0 ? 'fix' : 'escalate',
      );
      const [valued] = valueTests([until + shift, 1 - until - shift], actions, [sure], { depth: 1 });
      expect(Math.sign(valued?.value ?? 0)).toBe(-Math.sign(shift));
    }
    expect(sureTestPaysUntil(800, 750)).toBe(0);
  });
});

describe('the order of checks, and of random cases', () => {
  it('is that of probability over cost, as trying every order finds', () => {
    const part = fc.record({
      weight: fc.integer({ min: 1, max: 50 }),
      check: fc.integer({ min: 1, max: 50 }),
    });
    fc.assert(
      fc.property(fc.array(part, { minLength: 2, maxLength: 3 }), (parts) => {
        const total = parts.reduce((sum, { weight }) => sum + weight, 0);
        const rare = 1e-9;
        const p = [...parts.map(({ weight }) => (weight / total) * (1 - rare)), rare];
        const checks = parts.map(({ check }, place) => {
          const found = p.map((_, index) => (index === place ? 1 : 0));
          return { id: `${place}`, cost: check, setUp: null, outcomes: [found, found.map((one) => 1 - one)] };
        });
        const actions = [
          ...parts.map((_, place) => ({
            id: `${place}`,
            losses: p.map((_p, index) => (index === place ? 0 : 1e12)),
          })),
          { id: 'leave', losses: p.map((_, index) => (index === parts.length ? 0 : 1e4)) },
        ];
        const byPace = parts
          .map(({ check }, place) => ({ check, p: p[place] ?? 0 }))
          .sort((a, b) => b.p / b.check - a.p / a.check);
        const byRule = byPace.reduce(
          ({ cost, left }, one) => ({ cost: cost + left * one.check, left: left - one.p }),
          { cost: 0, left: 1 },
        ).cost;
        expect(riskByTesting(p, actions, checks, parts.length)).toBeCloseTo(byRule, 3);
      }),
      { numRuns: 200 },
    );
  });
});
