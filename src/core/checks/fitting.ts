import { weightOrder } from '../finding.ts';
import { type ConditionName, type Layout, type State, states } from '../job.ts';
import type { Check, Shape, Tier } from '../pack.ts';

/** A condition with the word that it must, or must not, be stated as. */
export type Word = readonly [condition: ConditionName, word: string];

/** The tiers that judge a state on a layout, the heaviest first, and what must be stated for them. */
export interface Fitting {
  readonly tiers: readonly Tier[];
  readonly needs: readonly Word[];
}

/** Tiers that serve a state and layout, the heaviest first. */
export const fittingTiers = (tiers: readonly Tier[], state: State, layout: Layout): Tier[] =>
  tiers
    .filter((tier) => tier.states === null || tier.states.includes(state))
    .filter((tier) => tier.layouts === null || tier.layouts.includes(layout))
    .sort((a, b) => weightOrder[a.weight] - weightOrder[b.weight]);

/** What fits of some tiers of a check. */
export const fittingOf = (check: Check, among: readonly Tier[], state: State, layout: Layout): Fitting => {
  const tiers = fittingTiers(among, state, layout);
  const needs = Object.assign({}, check.needs, ...tiers.map((tier) => tier.needs)) as Check['needs'];
  return { tiers, needs: Object.entries(needs) as unknown as Word[] };
};

const sets = new Map<string, ReadonlySet<State>>();

/** One set for all checks that judge the same states, so that their snapshots are sought once. */
const oneSet = (of: readonly State[]): ReadonlySet<State> => {
  const name = of.join(' ');
  const set = sets.get(name) ?? new Set(of);
  sets.set(name, set);
  return set;
};

/** What a check does on vehicles of one shape, whatever was read. */
export interface Plan {
  readonly check: Check;
  /** Whether any tier serves the layout. */
  readonly served: boolean;
  /** The states in which there is something to judge. */
  readonly states: ReadonlySet<State>;
  readonly fitting: ReadonlyMap<State, Fitting>;
  /** Conditions that rule the check out. */
  readonly unless: readonly Word[];
  /** Vehicle data that it wants, by its name. */
  readonly only: readonly (readonly [keyof Check['only'], readonly string[]])[];
}

const planOf = (check: Check, tiers: readonly Tier[], { layout }: Shape): Plan => {
  const fitting = new Map(
    states
      .filter((state) => check.states.includes(state))
      .map((state) => [state, fittingOf(check, tiers, state, layout)] as const)
      .filter(([, { tiers: own }]) => own.length > 0),
  );
  return {
    check,
    served: tiers.some((tier) => tier.layouts === null || tier.layouts.includes(layout)),
    states: oneSet([...fitting.keys()]),
    fitting,
    unless: Object.entries(check.unless) as unknown as Word[],
    only: Object.entries(check.only) as Plan['only'][number][],
  };
};

/** Makes the plans of a check with these tiers, each once. */
export const keptPlans = (tiers: readonly Tier[]): ((check: Check, shape: Shape) => Plan) => {
  const kept = new WeakMap<Shape, Plan>();
  return (check, shape) => {
    const before = kept.get(shape);
    if (before?.check === check) return before;
    const plan = planOf(check, tiers, shape);
    kept.set(shape, plan);
    return plan;
  };
};
