import { type Field, type FieldContext, fields, type Values } from '../../input/fresh/fields.ts';
import { chosenWord, numbered } from '../../input/typed/chosen-word.ts';
import type { TypedFault } from '../../input/typed/typed.ts';
import type { Style } from '../../report/style.ts';
import { faultBelow } from '../../report/words/fault-words.ts';
import type { Prompter } from '../prompter.ts';

/** Values given as options, read; with every fault of them. */
export const readGiven = (
  given: Values,
  context: FieldContext,
): { readonly values: Values; readonly faults: readonly TypedFault[] } => {
  const values: Values = {};
  const faults: TypedFault[] = [];
  for (const { name, read } of fields) {
    const typed = given[name];
    if (typed === undefined) continue;
    const value = read(typed, context);
    if (value.ok) values[name] = value.value;
    else faults.push({ ...value.fault, typed: `--${name} ${typed}` });
  }
  return { values, faults };
};

/** What must be said and was not. */
export const missing = (values: Values): readonly Field[] =>
  fields.filter(({ name, required }) => required && values[name] === undefined);

/** Where questions are asked, and how they look. */
export interface Asking {
  readonly prompter: Prompter;
  readonly style: Style;
  readonly print: (text: string) => void;
}

const promptOf = ({ name, question, words, note }: Field, kept: string, short: boolean): string => {
  const choice = words.length === 0 ? [] : [short ? numbered(words) : words.join(', ')];
  const inside = [...choice, ...(note === null ? [] : [note])].join('; ');
  const old = kept === '' ? '' : ` [${kept}]`;
  return `  ${question ?? name}${inside === '' ? '' : ` (${inside})`}${old}: `;
};

/**
 * Asks one question until it can be read. Enter keeps the usual answer, or leaves out what may be left out; a dash
 * leaves it out in any case.
 *
 * @returns undefined where it is left out, null where no more answers come
 */
const askField = async (
  field: Field,
  values: Values,
  context: FieldContext,
  { prompter, style, print }: Asking,
): Promise<string | null | undefined> => {
  const kept = field.usual(values);
  const { isTerminal } = prompter;
  for (;;) {
    const answer = await prompter.ask(style.text(promptOf(field, kept, isTerminal)));
    if (answer === null) return null;
    const line = answer.trim();
    if (!field.required && (line === '-' || (line === '' && kept === ''))) return undefined;
    const typed = line === '' ? kept : answer;
    const word = isTerminal ? chosenWord(typed, field.words) : null;
    const value = field.read(word ?? typed, context);
    if (value.ok) return value.value;
    print(faultBelow(value.fault, style));
  }
};

/** Asks for every field that was not given as an option; null where the answers end before all that must be said is. */
export const askRest = async (
  given: Values,
  context: FieldContext,
  asking: Asking,
): Promise<Values | null> => {
  const values: Values = { ...given };
  for (const field of fields) {
    if (field.question === null || values[field.name] !== undefined) continue;
    const answer = await askField(field, values, context, asking);
    // At a terminal somebody thought better of it; of a script the rest is not known.
    if (answer === null) return asking.prompter.isTerminal || missing(values).length > 0 ? null : values;
    if (answer !== undefined) values[field.name] = answer;
  }
  return values;
};
