import { type ConditionName, conditionWords, lampStates, type State } from '../../core/job.ts';
import { parseKey } from '../../core/key.ts';
import type { Channel } from '../../core/pack.ts';
import type { WantedCondition } from '../../core/wanted/circumstances.ts';
import type { StillToTake } from '../../core/wanted/still-to-take.ts';
import type { VehicleFact } from '../../core/wanted/vehicle-facts.ts';
import { conditionUnits, cornerChannel, type Name } from '../../input/typed/typed-name.ts';

/** Where an answer goes. */
export type Target =
  /** The session's own snapshot of a state, which is begun where there is none yet. */
  | { readonly kind: 'state'; readonly state: State }
  /** A snapshot that was taken before. */
  | { readonly kind: 'snapshot'; readonly id: string }
  | { readonly kind: 'vehicle' };

/** What is asked for: what a snapshot may say, or a fact of the vehicle. */
export type Subject = Name | { readonly kind: 'vehicle'; readonly fact: VehicleFact };

/** One thing to ask for. */
export interface Question {
  /** Of its group and its name: no question is asked twice in one session. */
  readonly id: string;
  readonly target: Target;
  readonly name: Subject;
  /** The name that it is typed by: `LF`, `floor`. */
  readonly typed: string;
  /** What people call it, where the name does not say it. */
  readonly title: string | null;
  /** The words to choose from; none where a number or a text is wanted. */
  readonly words: readonly string[];
  /** What stands behind the words or the unit: `level is wanted`. */
  readonly remarks: readonly string[];
  /** The unit of a number. */
  readonly unit: string | null;
  readonly cautions: readonly string[];
}

/** Questions of one group stand together, under one heading. */
export const groupOf = (target: Target): string =>
  target.kind === 'state' ? target.state : target.kind === 'snapshot' ? `of ${target.id}` : 'vehicle';

const plain = (target: Target, name: Subject, typed: string, title: string | null = null): Question => ({
  id: `${groupOf(target)} ${name.kind === 'reading' ? name.key : typed}`,
  target,
  name,
  typed,
  title,
  words: [],
  remarks: [],
  unit: null,
  cautions: [],
});

const quantities: Readonly<Record<keyof typeof conditionUnits, string>> = {
  air: 'air temperature',
  rested: 'since the key went off and the charger stopped',
  asleep: 'since all modules went to sleep; write h or min',
  barometer: 'pressure of the air',
  altitude: 'height above the sea',
};

/** The question for a condition; null for one that no file can state. */
export const conditionQuestion = (target: Target, { name, wants }: WantedCondition): Question | null => {
  if (Object.hasOwn(conditionWords, name)) {
    const condition = name as ConditionName;
    return {
      ...plain(target, { kind: 'condition', name: condition }, name),
      words: conditionWords[condition],
      remarks: wants === null ? [] : [`${wants} is wanted`],
    };
  }
  if (!Object.hasOwn(conditionUnits, name)) return null;
  const quantity = name as keyof typeof conditionUnits;
  return {
    ...plain(target, { kind: 'condition', name: quantity }, name, quantities[quantity]),
    unit: conditionUnits[quantity],
  };
};

const readingQuestion = (
  target: Target,
  key: string,
  channels: ReadonlyMap<string, Channel>,
): Question | null => {
  const { base, corner } = parseKey(key);
  const channel = channels.get(base);
  if (!channel) return null;
  const typed = base === cornerChannel && corner !== null ? corner : key;
  return {
    ...plain(target, { kind: 'reading', key, channel, corner }, typed, channel.title),
    unit: channel.unit,
    cautions: channel.cautions,
  };
};

const isByModule = (key: string, channels: ReadonlyMap<string, Channel>): boolean =>
  channels.get(parseKey(key).base)?.by === 'module';

/** The questions of one state, in the order in which somebody at the vehicle would answer them. */
export const questionsOf = (
  { state, conditions, lamp, readings, codes }: StillToTake,
  channels: ReadonlyMap<string, Channel>,
): Question[] => {
  const target: Target = { kind: 'state', state };
  const lampQuestion: Question = {
    ...plain(target, { kind: 'lamp' }, 'lamp'),
    words: lampStates,
  };
  const codesQuestion: Question = {
    ...plain(target, { kind: 'codes' }, 'code', 'as C1A21:stored:signal-range'),
    remarks: ['none if the list is empty'],
  };
  const ask = (key: string): Question | null => readingQuestion(target, key, channels);
  return [
    ...conditions.map((condition) => conditionQuestion(target, condition)),
    ...(lamp ? [lampQuestion] : []),
    ...readings.filter((key) => isByModule(key, channels)).map(ask),
    // Codes come off the same tool as what the module shows.
    ...(codes ? [codesQuestion] : []),
    ...readings.filter((key) => !isByModule(key, channels)).map(ask),
  ].filter((question) => question !== null);
};
