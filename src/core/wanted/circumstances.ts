import { concernsJob } from '../checks/concerns.ts';
import type { Finding } from '../finding.ts';
import {
  type ConditionName,
  type Conditions,
  conditionWords,
  type Job,
  type Snapshot,
  type State,
} from '../job.ts';
import type { Channel, Check, Pack } from '../pack.ts';
import { sceneOf } from '../scene.ts';

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

/** Any value does: what is asked is which conditions a check looks for before it judges one. */
const supposed = (keys: readonly string[], state: State, job: Job, conditions: Conditions): Snapshot => ({
  id: 'supposed',
  stamp: { at: job.opened, resolution: 1 },
  state,
  conditions,
  readings: new Map(
    keys.map((key) => [key, { kind: 'values', values: [{ value: 1, resolution: 0.01, text: '1' }], by: '' }]),
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
  return missing?.why === 'rest-not-stated' ? [...air, { name: 'rested', wants: null }] : air;
};

const isWord = (name: string): name is ConditionName => name in conditionWords;

/** The order in which somebody at a vehicle looks at these; others come after. */
const order = [
  'floor',
  'load',
  'doors',
  'rested',
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

/** Whether a check has what it reads, whatever else it lacks. */
const isAboutReadings = ({ missing }: Finding): boolean =>
  missing === null || missing.why === 'condition-not-stated' || missing.why === 'rest-not-stated';

/** Whether a check cannot judge where a condition is as another wants it: then neither is recommended. */
const isAgainst = ({ needs, unless }: Check, { name, wants }: WantedCondition): boolean => {
  if (wants === null || !isWord(name)) return false;
  return unless[name] === wants || (needs[name] !== undefined && needs[name] !== wants);
};

/** A check names one condition at a time, so it is asked again with that one stated. */
const mostRounds = 12;

/**
 * The conditions that the checks would want stated beside some readings of a state: found by supposing that these
 * were read with nothing stated, and asking the checks.
 *
 * @param keys channel keys, such as `position.LF`
 * @param asking ids of the checks that ask for readings at all: what others would want stated might stand in their way
 */
export const wantedConditions = (
  keys: readonly string[],
  state: State,
  job: Job,
  packs: readonly Pack[],
  channels: ReadonlyMap<string, Channel>,
  asking: ReadonlySet<string>,
): WantedCondition[] => {
  const checks = packs
    .flatMap((pack) => pack.checks)
    .filter((check) => asking.has(check.id))
    .filter((check) => check.rule.unit !== null && check.states.includes(state) && concernsJob(check, job));
  const found = new Map<string, WantedCondition>();
  let conditions = nothingStated;
  for (let round = 0; round < mostRounds; round += 1) {
    const snapshots = [supposed(keys, state, job, conditions)];
    const scene = sceneOf({ job: { ...job, snapshots, log: [] }, channels });
    const fresh = checks
      .flatMap((check) => check.rule.judge(check, scene))
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
  const judging = checks.filter((check) => {
    const snapshots = [supposed(keys, state, job, nothingStated)];
    const scene = sceneOf({ job: { ...job, snapshots, log: [] }, channels });
    return check.rule.judge(check, scene).some(isAboutReadings);
  });
  return [...found.values()]
    .map((one) => (judging.some((check) => isAgainst(check, one)) ? { ...one, wants: null } : one))
    .sort((a, b) => place(a) - place(b));
};
