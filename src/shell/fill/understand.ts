import type { Corner } from '../../core/corner.ts';
import type { Job } from '../../core/job.ts';
import type { VehicleFact } from '../../core/wanted/vehicle-facts.ts';
import { text, type Value } from '../../input/edit/value.ts';
import { type SenseWord, senseValue, senseWords } from '../../input/fresh/sensor-sense.ts';
import { chosenWord } from '../../input/typed/chosen-word.ts';
import { right, type Typed } from '../../input/typed/typed.ts';
import { type Part, typedPart } from '../../input/typed/typed-snapshot.ts';
import { typedWord } from '../../input/typed/typed-word.ts';
import type { Question } from './questions.ts';

/** What was understood of an answer. */
export type Understood =
  | { readonly kind: 'part'; readonly part: Part }
  | {
      readonly kind: 'fact';
      readonly fact: VehicleFact;
      readonly value: Value;
      readonly echo: string;
    };

const factOf = (
  fact: VehicleFact,
  typed: string,
  words: readonly string[],
  fitted: readonly Corner[],
): Typed<Understood> => {
  const word = typedWord(typed, words, `a word for ${fact}`);
  if (!word.ok) return word;
  const sense = senseWords.find((one) => one === word.value) as SenseWord | undefined;
  const value = fact === 'sensor-sense' && sense ? senseValue(sense, fitted) : text(word.value);
  return right({ kind: 'fact', fact, value, echo: word.value });
};

/**
 * An answer as it was meant.
 *
 * @param short true where the number of a word or its beginning will do, since somebody sees how it was understood
 */
export const understand = (
  { name, words }: Question,
  typed: string,
  { instruments, vehicle }: Pick<Job, 'instruments' | 'vehicle'>,
  short: boolean,
): Typed<Understood> => {
  const word = (short ? chosenWord(typed, words) : null) ?? typed;
  if (name.kind === 'vehicle') return factOf(name.fact, word, words, vehicle.fitted);
  const part = typedPart(name, { name: '', typed: word }, instruments);
  return part.ok ? right({ kind: 'part', part: part.value }) : part;
};
