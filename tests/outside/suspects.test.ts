import { describe, expect, it } from 'vitest';
import { hittingSets } from '../../src/core/suspects/hitting-sets.ts';
import { chanceOf, entropy, expectedInformation } from '../../src/core/suspects/information.ts';
import { leastRisk, valueTests } from '../../src/core/suspects/look-ahead.ts';
import { points, posterior } from '../../src/core/suspects/posterior.ts';

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
});
