import { type State, states } from '../../core/job.ts';
import { right, type Typed } from './typed.ts';
import { folded, typedWord } from './typed-word.ts';

/** Other words for the states of a vehicle, folded. */
const others: Readonly<Record<string, State>> = {
  ignon: 'key-on',
  ignitionon: 'key-on',
  idle: 'running',
  idling: 'running',
  engineon: 'running',
  enginerunning: 'running',
  keyoff: 'rest',
};

/** Other words for states, as they are best typed. */
export const otherStates = ['ign-on', 'ignition-on', 'idle', 'engine-running', 'key-off'] as const;

/** The state that a word means, in any case and with or without its dash: `ign-on` is `key-on`, `idle` is `running`. */
export const stateMeant = (typed: string): State | null => {
  const word = folded(typed);
  const own = states.find((state) => folded(state) === word);
  if (own !== undefined) return own;
  return Object.hasOwn(others, word) ? (others[word] ?? null) : null;
};

/** A state as typed, or what was probably meant. */
export const typedState = (typed: string): Typed<State> => {
  const state = stateMeant(typed);
  return state === null ? typedWord(typed, states, 'a state') : right(state);
};
