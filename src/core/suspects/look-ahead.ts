import type { OutcomeTable } from './information.ts';

/** Something that can be done now, with its cost in excess of the right repair under each hypothesis, never negative. */
export interface Action {
  readonly id: string;
  readonly losses: readonly number[];
}

/** A test: what it costs, what preparation it shares with others, and what it can find. */
export interface Probe {
  readonly id: string;
  /** Without the shared preparation. */
  readonly cost: number;
  /** Work that is done once for all tests that name it; null for none. */
  readonly setUp: { readonly id: string; readonly cost: number } | null;
  readonly outcomes: OutcomeTable;
}

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

/** An action's losses as one that most hypotheses share, and where others differ from it and by how much. */
interface Compact {
  readonly common: number;
  readonly exceptions: readonly { readonly at: number; readonly more: number }[];
}

/** A wrong part loses the same whatever is wrong instead, so that few losses have to be added up. */
const compact = ({ losses }: Action): Compact => {
  const counts = new Map<number, number>();
  for (const loss of losses) counts.set(loss, (counts.get(loss) ?? 0) + 1);
  const [[common] = [0]] = [...counts].sort(([, a], [, b]) => b - a);
  const exceptions = losses.flatMap((loss, at) => (loss === common ? [] : [{ at, more: loss - common }]));
  return { common, exceptions };
};

const massOf = (weights: readonly number[]): number => {
  let mass = 0;
  for (const weight of weights) mass += weight;
  return mass;
};

const leastLoss = (weights: readonly number[], mass: number, actions: readonly Compact[]): number => {
  let least = Number.POSITIVE_INFINITY;
  for (const { common, exceptions } of actions) {
    let loss = common * mass;
    for (const { at, more } of exceptions) loss += more * (weights[at] ?? 0);
    if (loss < least) least = loss;
  }
  return least;
};

/** The action with the least expected loss, and that loss; of equals the first. */
export const leastRisk = (probabilities: readonly number[], actions: readonly Action[]): Choice => {
  const [first, ...rest] = actions.map((action) => ({
    action,
    risk: expected(probabilities, action.losses),
  }));
  if (!first) throw new Error('there is no action to choose');
  return rest.reduce((best, one) => (one.risk < best.risk ? one : best), first);
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

/** Joint weights of the hypotheses with one more outcome. */
const branchOf = (joint: readonly number[], outcome: readonly number[]): number[] => {
  const branch = new Array<number>(joint.length);
  for (let index = 0; index < joint.length; index += 1) {
    branch[index] = (joint[index] ?? 0) * (outcome[index] ?? 0);
  }
  return branch;
};

/**
 * What is left to lose if up to `depth` more tests may be done, the best each time, before something is done. It runs
 * over joint weights P(hypothesis, outcomes so far), which need no scaling: every branch adds up as it is.
 */
const riskWith = (
  joint: readonly number[],
  actions: readonly Compact[],
  probes: readonly Probe[],
  done: ReadonlySet<string>,
  depth: number,
): number => {
  const mass = massOf(joint);
  let best = leastLoss(joint, mass, actions);
  if (depth === 0) return best;
  for (const probe of probes) {
    best = Math.min(best, riskAfter(joint, mass, actions, probes, probe, done, depth, best));
  }
  return best;
};

/**
 * The cost of a test and what is then left to lose. Losses are never negative, so that the sum only grows: once it is
 * no better than what is known, the rest need not be worked out, and what is returned is no better either.
 *
 * @param mass the sum of the joint weights
 * @param known a risk that can be had otherwise
 */
const riskAfter = (
  joint: readonly number[],
  mass: number,
  actions: readonly Compact[],
  probes: readonly Probe[],
  probe: Probe,
  done: ReadonlySet<string>,
  depth: number,
  known: number,
): number => {
  let sum = price(probe, done) * mass;
  if (sum >= known) return sum;
  const others = depth > 1 ? probes.filter((other) => other !== probe) : [];
  const prepared = probe.setUp ? new Set([...done, probe.setUp.id]) : done;
  for (const outcome of probe.outcomes) {
    sum += riskWith(branchOf(joint, outcome), actions, others, prepared, depth - 1);
    if (sum >= known) return sum;
  }
  return sum;
};

/** A test with what it is expected to save, after its own cost; negative where it costs more than it can save. */
export interface Valued {
  readonly probe: Probe;
  readonly value: number;
}

/**
 * What each test is expected to save: the risk now, less its cost and the risk after it, where one more test may
 * follow (two steps, since one step misses pairs that only pay together).
 *
 * @param done ids of preparations that are there already
 * @param depth tests in a row that are looked at, 2 unless told
 */
export const valueTests = (
  probabilities: readonly number[],
  actions: readonly Action[],
  probes: readonly Probe[],
  done: ReadonlySet<string> = new Set(),
  depth = 2,
): Valued[] => {
  const { risk } = leastRisk(probabilities, actions);
  const few = actions.map(compact);
  const mass = massOf(probabilities);
  return probes.map((probe) => ({
    probe,
    value: risk - riskAfter(probabilities, mass, few, probes, probe, done, depth, Number.POSITIVE_INFINITY),
  }));
};

/** The least risk that up to `depth` tests can bring. */
export const riskByTesting = (
  probabilities: readonly number[],
  actions: readonly Action[],
  probes: readonly Probe[],
  depth: number,
): number => riskWith(probabilities, actions.map(compact), probes, new Set(), depth);

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
