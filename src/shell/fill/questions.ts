import { type ConditionName, conditionWords, lampStates, type State } from '../../core/job.ts';
import { parseKey } from '../../core/key.ts';
import type { Channel } from '../../core/pack.ts';
import type { WantedCondition } from '../../core/wanted/circumstances.ts';
import type { StillToTake } from '../../core/wanted/still-to-take.ts';
import { conditionUnits, type Name } from '../../input/typed/typed-name.ts';

/** One thing to ask for. */
export interface Question {
  /** Of the state and the name: no question is asked twice in one session. */
  readonly id: string;
  readonly state: State;
  readonly name: Name;
  /** As a person is asked for it: `LF position signal, V`. */
  readonly text: string;
  readonly cautions: readonly string[];
}

const conditionQuestion = (state: State, { name, wants }: WantedCondition): Question | null => {
  if (name in conditionWords) {
    const condition = name as ConditionName;
    const words = (conditionWords[condition] as readonly string[]).join(' or ');
    const wanted = wants === null ? '' : `; ${wants} is wanted`;
    const text = `${name} (${words}${wanted})`;
    return {
      id: `${state} ${name}`,
      state,
      name: { kind: 'condition', name: condition },
      text,
      cautions: [],
    };
  }
  if (!(name in conditionUnits)) return null;
  const quantity = name as keyof typeof conditionUnits;
  const what = {
    air: 'air temperature',
    rested: 'rested for',
    asleep: 'all asleep for (write h or min)',
    barometer: 'barometer',
    altitude: 'altitude',
  }[quantity];
  return {
    id: `${state} ${name}`,
    state,
    name: { kind: 'condition', name: quantity },
    text: `${what}, ${conditionUnits[quantity]}`,
    cautions: [],
  };
};

const readingQuestion = (
  state: State,
  key: string,
  channels: ReadonlyMap<string, Channel>,
): Question | null => {
  const { base, corner } = parseKey(key);
  const channel = channels.get(base);
  if (!channel) return null;
  const title = corner === null ? channel.title : `${corner} ${channel.title}`;
  return {
    id: `${state} ${key}`,
    state,
    name: { kind: 'reading', key, channel, corner },
    text: `${title}, ${channel.unit}`,
    cautions: channel.cautions,
  };
};

/** A channel that is read once or at corners is asked for once. */
const withoutDoubles = (keys: readonly string[]): string[] =>
  keys.filter((key) => {
    const { base, corner } = parseKey(key);
    return corner === null || !keys.includes(base);
  });

const isByModule = (key: string, channels: ReadonlyMap<string, Channel>): boolean =>
  channels.get(parseKey(key).base)?.by === 'module';

/** The questions of one state, in the order in which somebody at the vehicle would answer them. */
export const questionsOf = (
  { state, conditions, lamp, readings, codes }: StillToTake,
  channels: ReadonlyMap<string, Channel>,
): Question[] => {
  const lampQuestion: Question = {
    id: `${state} lamp`,
    state,
    name: { kind: 'lamp' },
    text: `warning lamp (${lampStates.join(', ')})`,
    cautions: [],
  };
  const codesQuestion: Question = {
    id: `${state} codes`,
    state,
    name: { kind: 'codes' },
    text: 'trouble code (as C1A21:stored:signal-range; none if the list is empty)',
    cautions: [],
  };
  const keys = withoutDoubles(readings);
  const ask = (key: string): Question | null => readingQuestion(state, key, channels);
  return [
    ...conditions.map((condition) => conditionQuestion(state, condition)),
    ...(lamp ? [lampQuestion] : []),
    ...keys.filter((key) => isByModule(key, channels)).map(ask),
    // Codes come off the same tool as what the module shows.
    ...(codes ? [codesQuestion] : []),
    ...keys.filter((key) => !isByModule(key, channels)).map(ask),
  ].filter((question) => question !== null);
};
