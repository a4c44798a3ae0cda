import { type Field, type FieldName, fields } from '../../input/fresh/fields.ts';
import type { TypedFault } from '../../input/typed/typed.ts';
import type { Style } from '../../report/style.ts';
import { faultBelow } from '../../report/words/fault-words.ts';
import type { Prompter } from '../prompter.ts';

export type Values = Partial<Record<FieldName, string>>;

/** Values given as options, read; with every fault of them. */
export const readGiven = (
  given: Values,
): { readonly values: Values; readonly faults: readonly TypedFault[] } => {
  const values: Values = {};
  const faults: TypedFault[] = [];
  for (const { name, read } of fields) {
    const typed = given[name];
    if (typed === undefined) continue;
    const value = read(typed);
    if (value.ok) values[name] = value.value;
    else faults.push({ ...value.fault, typed: `--${name} ${typed}` });
  }
  return { values, faults };
};

/** What must be said and was not. */
export const missing = (values: Values): readonly Field[] =>
  fields.filter(({ name, required }) => required && values[name] === undefined);

/** Asks one question until it can be read; an empty answer leaves out what may be left out. */
const askField = async (
  field: Field,
  more: string,
  prompter: Prompter,
  style: Style,
  print: (text: string) => void,
): Promise<string | null | undefined> => {
  for (;;) {
    const answer = await prompter.ask(style.text(`  ${field.question ?? field.name}${more}: `));
    if (answer === null) return null;
    if (answer.trim() === '' && !field.required) return undefined;
    const value = field.read(answer);
    if (value.ok) return value.value;
    print(faultBelow(value.fault, style));
  }
};

/**
 * Asks for every field that was not given as an option; null where the answers end before all that must be said is.
 *
 * @param packsNote what an empty answer to the question for packs means
 */
export const askRest = async (
  given: Values,
  packsNote: string,
  prompter: Prompter,
  style: Style,
  print: (text: string) => void,
): Promise<Values | null> => {
  const values: Values = { ...given };
  for (const field of fields) {
    if (field.question === null || values[field.name] !== undefined) continue;
    const more = field.name === 'packs' ? ` (Enter: ${packsNote})` : '';
    const answer = await askField(field, more, prompter, style, print);
    // At a terminal somebody thought better of it; of a script the rest is not known.
    if (answer === null) return prompter.isTerminal || missing(values).length > 0 ? null : values;
    if (answer !== undefined) values[field.name] = answer;
  }
  return values;
};
