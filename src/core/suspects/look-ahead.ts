import type { Action, Probe } from './decision.ts';
import {
  branch,
  type FlatProbe,
  type FlatProblem,
  flatProblem,
  leastLoss,
  unavoidableLoss,
} from './flat-problem.ts';

export interface Choice {
  readonly action: Action;
  readonly risk: number;
}

// A plain loop: looking ahead spends its time here.
const expected = (weights: readonly number[], values: readonly number[]): number => {
  let sum = 0;
  for (let index = 0; index < weights.length; index += 1) {
    sum += (weights[index] ?? 0) * (values[index] ?? 0);
  }
  return sum;
};

/** The action with the least expected loss, and that loss; of equals the first. */
export const leastRisk = (probabilities: readonly number[], actions: readonly Action[]): Choice => {
  let [best] = actions;
  if (!best) throw new Error('there is no action to choose');
  let risk = expected(probabilities, best.losses);
  for (const action of actions) {
    const loss = expected(probabilities, action.losses);
    if (loss < risk) [best, risk] = [action, loss];
  }
  return { action: best, risk };
};

/** Whether no action loses less than this one; of those that lose the same each is the least. */
export const isLeastRisk = (
  id: string,
  probabilities: readonly number[],
  actions: readonly Action[],
): boolean => {
  const own = actions.find((action) => action.id === id);
  const least = leastRisk(probabilities, actions).risk;
  return own !== undefined && expected(probabilities, own.losses) <= least * (1 + 1e-9);
};

const price = (probe: Probe, done: ReadonlySet<string>): number =>
  probe.cost + (probe.setUp && !done.has(probe.setUp.id) ? probe.setUp.cost : 0);

/** A decision, and a row of joint weights for each test that may be looked at in a row. */
interface Outlook {
  readonly problem: FlatProblem;
  readonly rows: readonly Float64Array[];
}

const outlookOf = (
  probabilities: readonly number[],
  actions: readonly Action[],
  probes: readonly Probe[],
  depth: number,
): Outlook => ({
  problem: flatProblem(probabilities.length, actions, probes),
  rows: [
    Float64Array.from(probabilities),
    ...Array.from({ length: depth }, () => new Float64Array(probabilities.length)),
  ],
});

/** How far a bound may be off by rounding, as a share: what is no better than by so much is worked out all the same. */
const rounding = 1e-12;

/**
 * What is left to lose if up to `depth` more tests may be done, the best each time, before something is done. It runs
 * over joint weights P(hypothesis, outcomes so far), which need no scaling: every branch adds up as it is.
 *
 * @param taken tests that were done on the way; their number is the place of the row
 */
const riskWith = (
  outlook: Outlook,
  taken: readonly FlatProbe[],
  mass: number,
  done: ReadonlySet<string>,
  depth: number,
): number => {
  const { problem, rows } = outlook;
  const row = rows[taken.length] as Float64Array;
  let best = leastLoss(problem.actions, row, mass);
  if (depth === 0) return best;
  const floor = unavoidableLoss(problem, row);
  for (const flat of problem.probes) {
    if (taken.includes(flat)) continue;
    best = Math.min(best, riskAfter(outlook, taken, flat, mass, floor, done, depth, best));
  }
  return best;
};

/**
 * The cost of a test and what is then left to lose. No outcome can lose less than what cannot be avoided under it, so
 * that the sum has a bound before it is whole: once that is no better than what is known, the rest need not be worked
 * out, and what is returned is no better either.
 *
 * @param mass the sum of the joint weights
 * @param floor what cannot be avoided under them, whatever is known
 * @param known a risk that can be had otherwise
 */
const riskAfter = (
  outlook: Outlook,
  taken: readonly FlatProbe[],
  flat: FlatProbe,
  mass: number,
  floor: number,
  done: ReadonlySet<string>,
  depth: number,
  known: number,
): number => {
  const { problem, rows } = outlook;
  const { probe, outcomes, covered } = flat;
  const enough = known * (1 + rounding);
  let sum = price(probe, done) * mass;
  let left = floor * covered;
  if (sum + left >= enough) return sum + left;
  const row = rows[taken.length] as Float64Array;
  const into = rows[taken.length + 1] as Float64Array;
  const further = depth > 1 ? [...taken, flat] : taken;
  const prepared = depth > 1 && probe.setUp ? new Set([...done, probe.setUp.id]) : done;
  for (const outcome of outcomes) {
    const share = branch(row, outcome, into);
    left -= unavoidableLoss(problem, into);
    sum +=
      depth > 1
        ? riskWith(outlook, further, share, prepared, depth - 1)
        : leastLoss(problem.actions, into, share);
    // What rounding leaves of nothing is nothing.
    if (sum + Math.max(0, left) >= enough) return sum + Math.max(0, left);
  }
  return sum;
};

/** A test with what it is expected to save, after its own cost; negative where it costs more than it can save. */
export interface Valued {
  readonly probe: Probe;
  readonly value: number;
}

export interface LookingAhead {
  /** Ids of preparations that are there already; none unless told. */
  readonly done?: ReadonlySet<string>;
  /** Tests in a row that are looked at; 2 unless told, since one step misses pairs that only pay together. */
  readonly depth?: number;
  /** What a test must save to be of interest: one that provably does not save more is left out. All are in unless told. */
  readonly over?: (probe: Probe) => number;
}

/**
 * What each test is expected to save: the risk now, less its cost and the risk after it, where more tests may follow.
 * The values are those of working every branch out, as far as rounding goes.
 */
export const valueTests = (
  probabilities: readonly number[],
  actions: readonly Action[],
  probes: readonly Probe[],
  { done = new Set(), depth = 2, over }: LookingAhead = {},
): Valued[] => {
  const { risk } = leastRisk(probabilities, actions);
  const outlook = outlookOf(probabilities, actions, probes, depth);
  const { problem, rows } = outlook;
  const row = rows[0] as Float64Array;
  const mass = probabilities.reduce((sum, p) => sum + p, 0);
  const floor = unavoidableLoss(problem, row);
  return problem.probes.flatMap((flat) => {
    const { probe } = flat;
    const known = over ? risk - over(probe) : Number.POSITIVE_INFINITY;
    const left = riskAfter(outlook, [], flat, mass, floor, done, depth, known);
    return left < known ? [{ probe, value: risk - left }] : [];
  });
};

/** The least risk that up to `depth` tests can bring. */
export const riskByTesting = (
  probabilities: readonly number[],
  actions: readonly Action[],
  probes: readonly Probe[],
  depth: number,
): number => {
  const outlook = outlookOf(probabilities, actions, probes, depth);
  const mass = probabilities.reduce((sum, p) => sum + p, 0);
  return riskWith(outlook, [], mass, new Set(), depth);
};

/**
 * What knowing the truth would be worth: no test can be worth more. Source of the name and the bound: R. A. Howard,
 * Information value theory (1966), from memory.
 */
export const valueOfPerfectInformation = (
  probabilities: readonly number[],
  actions: readonly Action[],
): number => {
  const knowing = probabilities.map((_, index) =>
    Math.min(...actions.map(({ losses }) => losses[index] ?? 0)),
  );
  return leastRisk(probabilities, actions).risk - expected(probabilities, knowing);
};
