import { weightOrder } from '../finding.ts';
import { type ConditionName, type Layout, type State, states } from '../job.ts';
import type { Check, Tier } from '../pack.ts';
import type { Subject, WasRead } from './subjects.ts';

/** A condition, and the word that it must or must not have. */
export type Word = readonly [condition: ConditionName, word: string];

/** The tiers that apply in a state on a layout, the heaviest first, and the conditions that they need. */
export interface Fitting {
  readonly tiers: readonly Tier[];
  readonly needs: readonly Word[];
}

/** The tiers that apply in a state on a layout, the heaviest first. */
export const fittingTiers = (tiers: readonly Tier[], state: State, layout: Layout): Tier[] =>
  tiers
    .filter((tier) => tier.states === null || tier.states.includes(state))
    .filter((tier) => tier.layouts === null || tier.layouts.includes(layout))
    .sort((a, b) => weightOrder[a.weight] - weightOrder[b.weight]);

/** Selects the tiers that apply in a state on a layout, and collects the conditions that they and the check need. */
export const fittingOf = (check: Check, among: readonly Tier[], state: State, layout: Layout): Fitting => {
  const tiers = fittingTiers(among, state, layout);
  const needs = Object.assign({}, check.needs, ...tiers.map((tier) => tier.needs)) as Check['needs'];
  return { tiers, needs: Object.entries(needs) as unknown as Word[] };
};

/** What a check does on vehicles of one shape, whatever was read. Plain data. */
export interface CheckPlan {
  readonly check: Check;
  /** Whether any tier serves the layout. */
  readonly served: boolean;
  /** What applies in each state in which there is something to judge; nothing in the others. */
  readonly fitting: Partial<Readonly<Record<State, Fitting>>>;
  /** How many states there are in which there is something to judge. */
  readonly judgedStates: number;
  /** Conditions that rule the check out. */
  readonly unless: readonly Word[];
  /** Vehicle data that it wants, by its name. */
  readonly only: readonly (readonly [keyof Check['only'], readonly string[]])[];
  /** What the check is about; null where that depends on which readings a job has. */
  readonly subjects: readonly Subject[] | null;
}

/**
 * Works out what a check does on vehicles of one shape.
 *
 * @param tiers of the check, as its kind gives them
 * @param layout of the vehicles
 * @param subjectsIf the subjects on these vehicles, given which readings a job has
 */
export const planCheck = (
  check: Check,
  tiers: readonly Tier[],
  layout: Layout,
  subjectsIf: (wasRead: WasRead) => readonly Subject[],
): CheckPlan => {
  const fitting = states
    .filter((state) => check.states.includes(state))
    .map((state) => [state, fittingOf(check, tiers, state, layout)] as const)
    .filter(([, { tiers: own }]) => own.length > 0);
  let dependsOnReadings = false;
  const subjects = subjectsIf(() => {
    dependsOnReadings = true;
    return false;
  });
  return {
    check,
    served: tiers.some((tier) => tier.layouts === null || tier.layouts.includes(layout)),
    fitting: Object.fromEntries(fitting),
    judgedStates: fitting.length,
    unless: Object.entries(check.unless) as unknown as Word[],
    only: Object.entries(check.only) as CheckPlan['only'][number][],
    subjects: dependsOnReadings ? null : subjects,
  };
};
