import { type CheckContext, checkContext } from '../checks/check-context.ts';
import { concernsJob } from '../checks/concerns.ts';
import { kindOf } from '../checks/kinds/index.ts';
import type { Finding } from '../finding.ts';
import {
  type ConditionName,
  type Conditions,
  conditionWords,
  type Job,
  type Snapshot,
  type State,
} from '../job.ts';
import { parseKey } from '../key.ts';
import type { Channel, Check } from '../pack.ts';
import { type PreparedPacks, preparedFor } from '../prepare/prepared-packs.ts';
import { believable } from '../readings/believable.ts';

/** A condition that checks want stated, and the word that they want where it is one of a list. */
export interface WantedCondition {
  readonly name: string;
  readonly wants: string | null;
}

const nothingStated: Conditions = {
  words: {},
  air: null,
  rested: null,
  asleep: null,
  barometer: null,
  altitude: null,
};

/** Any value that can be believed will do: the question is which conditions a check needs to judge it. */
const supposedValue = (key: string, channels: ReadonlyMap<string, Channel>): number => {
  const unit = channels.get(parseKey(key).base)?.unit;
  const bounds = unit === undefined ? null : believable(key, unit);
  return bounds === null ? 1 : (bounds.low + bounds.high) / 2;
};

/** A snapshot to ask checks about. */
const supposed = (
  keys: readonly string[],
  state: State,
  job: Job,
  conditions: Conditions,
  channels: ReadonlyMap<string, Channel>,
): Snapshot => ({
  id: 'supposed',
  stamp: { at: job.opened, resolution: 1 },
  state,
  conditions,
  readings: new Map(
    keys.map((key) => {
      const value = supposedValue(key, channels);
      return [key, { kind: 'values', values: [{ value, resolution: 0.01, text: String(value) }], by: '' }];
    }),
  ),
  lamp: null,
  codes: null,
});

const wantedBy = ({ missing, remarks }: Finding): WantedCondition[] => {
  // A rate over several snapshots wants the air at each of them, and one alone cannot say so yet.
  const wantsAir =
    missing?.why === 'too-few-points' || remarks.some(({ kind }) => kind === 'temperature-assumed');
  const air = wantsAir ? [{ name: 'air', wants: null }] : [];
  if (missing?.why === 'condition-not-stated')
    return [...air, { name: missing.condition, wants: missing.wants }];
  if (missing?.why === 'sleep-not-stated') return [...air, { name: 'asleep', wants: null }];
  return missing?.why === 'rest-not-stated' ? [...air, { name: 'rested', wants: null }] : air;
};

const isWord = (name: string): name is ConditionName => name in conditionWords;

/** The order in which somebody at a vehicle looks at these; others come after. */
const order = [
  'floor',
  'load',
  'doors',
  'rested',
  'asleep',
  'levelling',
  'maintainer',
  'air-system',
  'heavy-load',
  'idle',
  'air',
];

const place = ({ name }: WantedCondition): number => {
  const found = order.indexOf(name);
  return found < 0 ? order.length : found;
};

/** Whether a check has the readings it needs, even if it lacks conditions. */
const isAboutReadings = ({ missing }: Finding): boolean =>
  missing === null ||
  missing.why === 'condition-not-stated' ||
  missing.why === 'rest-not-stated' ||
  missing.why === 'sleep-not-stated';

/** Whether a check cannot judge when a condition has the word that another check wants; then no word is recommended. */
const isAgainst = ({ needs, unless }: Check, { name, wants }: WantedCondition): boolean => {
  if (wants === null || !isWord(name)) return false;
  return unless[name] === wants || (needs[name] !== undefined && needs[name] !== wants);
};

/** A check names one condition at a time, so it is asked again with that one stated. */
const mostRounds = 12;

/**
 * Finds the conditions that the checks need stated with some readings of a state, by judging a supposed snapshot that has
 * these readings and states no condition.
 *
 * @param keys channel keys, such as `position.LF`
 * @param asking ids of the checks that ask for readings at all: what others would want stated might stand in their way
 */
export const wantedConditions = (
  keys: readonly string[],
  state: State,
  job: Job,
  prepared: PreparedPacks,
  asking: ReadonlySet<string>,
): WantedCondition[] => {
  const plans = preparedFor(prepared, job.vehicle)
    .early.filter(({ check }) => asking.has(check.id))
    .filter(({ check }) => check.unit !== null && check.states.includes(state) && concernsJob(check, job));
  const contextWith = (conditions: Conditions): CheckContext => {
    const snapshots = [supposed(keys, state, job, conditions, prepared.channelById)];
    return checkContext({ ...job, snapshots, log: [] }, prepared.channelById);
  };
  const found = new Map<string, WantedCondition>();
  let conditions = nothingStated;
  for (let round = 0; round < mostRounds; round += 1) {
    const context = contextWith(conditions);
    const fresh = plans
      .flatMap((plan) => kindOf(plan.check).judge(plan, plan.check.parameters, context))
      .flatMap(wantedBy)
      .filter(({ name }) => !found.has(name));
    if (fresh.length === 0) break;
    for (const one of fresh) found.set(one.name, one);
    const words = Object.fromEntries(
      [...found.values()]
        .filter(({ name, wants }) => isWord(name) && wants !== null)
        .map(({ name, wants }) => [name, wants]),
    );
    conditions = { ...nothingStated, words };
  }
  const unstated = contextWith(nothingStated);
  const judging = plans.filter((plan) =>
    kindOf(plan.check).judge(plan, plan.check.parameters, unstated).some(isAboutReadings),
  );
  return [...found.values()]
    .map((one) => (judging.some(({ check }) => isAgainst(check, one)) ? { ...one, wants: null } : one))
    .sort((a, b) => place(a) - place(b));
};
