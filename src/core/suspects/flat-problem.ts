import type { Action, Probe } from './decision.ts';

/**
 * Actions and tests of a decision in flat arrays: looking ahead goes through them some hundred thousand times, and makes
 * no object there.
 */
export interface FlatProblem {
  readonly actions: FlatActions;
  /** Hypotheses under which every action loses something, and the least that any of them does. */
  readonly unavoidable: { readonly at: Int32Array; readonly loss: Float64Array };
  readonly probes: readonly FlatProbe[];
}

/** Losses as one that most hypotheses share, and where others differ from it and by how much. */
interface FlatActions {
  readonly common: Float64Array;
  /** Where the exceptions of each action begin; one more than there are actions, for the end of the last. */
  readonly from: Int32Array;
  readonly at: Int32Array;
  readonly more: Float64Array;
}

/** A test with its likelihoods, outcome by outcome. */
export interface FlatProbe {
  readonly probe: Probe;
  readonly outcomes: readonly Float64Array[];
  /** The least that its outcomes add up to under any hypothesis: 1, as far as rounding goes. */
  readonly covered: number;
}

/** A wrong part loses the same whatever is wrong instead, so that few losses have to be added up. */
const commonest = (losses: readonly number[]): number => {
  const counts = new Map<number, number>();
  for (const loss of losses) counts.set(loss, (counts.get(loss) ?? 0) + 1);
  const [[common] = [0]] = [...counts].sort(([, a], [, b]) => b - a);
  return common;
};

const flatActions = (actions: readonly Action[]): FlatActions => {
  const common = actions.map(({ losses }) => commonest(losses));
  const from = [0];
  const at: number[] = [];
  const more: number[] = [];
  for (const [place, { losses }] of actions.entries()) {
    const own = common[place] ?? 0;
    for (const [index, loss] of losses.entries()) {
      if (loss === own) continue;
      at.push(index);
      more.push(loss - own);
    }
    from.push(at.length);
  }
  return {
    common: Float64Array.from(common),
    from: Int32Array.from(from),
    at: Int32Array.from(at),
    more: Float64Array.from(more),
  };
};

const flatProbe = (probe: Probe, size: number): FlatProbe => {
  const sums = Array.from({ length: size }, (_, index) =>
    probe.outcomes.reduce((sum, outcome) => sum + (outcome[index] ?? 0), 0),
  );
  return {
    probe,
    outcomes: probe.outcomes.map((outcome) => Float64Array.from(outcome)),
    covered: Math.min(1, ...sums),
  };
};

const unavoidableOf = (size: number, actions: readonly Action[]): FlatProblem['unavoidable'] => {
  const least = Array.from({ length: size }, (_, index) =>
    Math.min(...actions.map(({ losses }) => losses[index] ?? 0)),
  );
  const at = least.flatMap((loss, index) => (loss === 0 ? [] : [index]));
  return { at: Int32Array.from(at), loss: Float64Array.from(at, (index) => least[index] ?? 0) };
};

/**
 * Lays a decision out in flat arrays.
 *
 * @param size how many hypotheses there are
 */
export const flatProblem = (
  size: number,
  actions: readonly Action[],
  probes: readonly Probe[],
): FlatProblem => ({
  actions: flatActions(actions),
  unavoidable: unavoidableOf(size, actions),
  probes: probes.map((probe) => flatProbe(probe, size)),
});

/** The expected loss of the best action, over joint weights. */
export const leastLoss = (
  { common, from, at, more }: FlatActions,
  row: Float64Array,
  mass: number,
): number => {
  let least = Number.POSITIVE_INFINITY;
  for (let action = 0; action < common.length; action += 1) {
    let loss = (common[action] as number) * mass;
    const end = from[action + 1] as number;
    for (let one = from[action] as number; one < end; one += 1)
      loss += (more[one] as number) * (row[at[one] as number] as number);
    if (loss < least) least = loss;
  }
  return least;
};

/** What is lost over joint weights by whoever knows everything. */
export const unavoidableLoss = ({ unavoidable: { at, loss } }: FlatProblem, row: Float64Array): number => {
  let sum = 0;
  for (let one = 0; one < at.length; one += 1)
    sum += (loss[one] as number) * (row[at[one] as number] as number);
  return sum;
};

/**
 * Joint weights with one more outcome.
 *
 * @param into the row that is written
 * @returns their sum
 */
export const branch = (row: Float64Array, outcome: Float64Array, into: Float64Array): number => {
  let mass = 0;
  for (let index = 0; index < row.length; index += 1) {
    const weight = (row[index] as number) * (outcome[index] as number);
    into[index] = weight;
    mass += weight;
  }
  return mass;
};
