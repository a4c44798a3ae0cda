import { cornerMeant } from '../../input/job/corner-hint.ts';
import { quoted } from '../../input/quoted.ts';
import type { Choice } from '../../input/typed/typed.ts';
import { oneLine } from '../../report/clean.ts';
import { wrap } from '../../report/sheet/grid.ts';
import type { Style } from '../../report/style.ts';
import type { Prompter } from '../prompter.ts';

/** Where somebody is asked, and how it looks. */
export interface Asking {
  readonly prompter: Prompter;
  readonly style: Style;
  readonly print: (text: string) => void;
}

const placeOf = (name: string): string => name.slice(name.lastIndexOf('.') + 1);

/** The choice that an answer means: its number, its name or the beginning of it, or its corner alone. */
export const choiceMeant = (typed: string, choices: readonly Choice[]): Choice | null => {
  const word = typed.trim().toLowerCase();
  if (word === '') return null;
  if (/^\d+$/u.test(word)) return choices[Number(word) - 1] ?? null;
  const corner = cornerMeant(word);
  const exact = choices.find(({ name }) => name.toLowerCase() === word);
  const place = corner ?? word;
  const found = exact ?? choices.find(({ name }) => placeOf(name) === place);
  if (found) return found;
  const [begun, ...more] = choices.filter(({ name }) => name.toLowerCase().startsWith(word));
  return more.length === 0 ? (begun ?? null) : null;
};

/** Choices in numbered lines, each with what people call it. */
const choiceLines = (choices: readonly Choice[], { text, options }: Style): string => {
  const width = Math.max(...choices.map(({ name }) => name.length));
  const indent = width + 7;
  const lines = choices.flatMap(({ name, title }, index) => {
    const [first = '', ...more] = wrap(text(oneLine(title)), Math.max(20, options.width - indent));
    const head = `  ${String(index + 1).padStart(2)} ${text(oneLine(name)).padEnd(width)}  ${first}`;
    return [head.trimEnd(), ...more.map((line) => `${' '.repeat(indent)}${line}`)];
  });
  return lines.map((line) => `${line}\n`).join('');
};

/**
 * Asks which of a few things is meant, until one of them is answered.
 *
 * @param optional true where an empty answer leaves it open; then the answer is ''
 * @returns the name of one of them, or null once no more answers come
 */
export const askChoice = async (
  question: string,
  choices: readonly Choice[],
  { prompter, style, print }: Asking,
  optional = false,
): Promise<string | null> => {
  print(choiceLines(choices, style));
  const tail = optional ? 'number or word; Enter if it is not known' : 'number or word; Ctrl-D stops';
  for (;;) {
    const answer = await prompter.ask(style.text(`${question} (${tail}): `));
    if (answer === null) return null;
    if (answer.trim() === '' && optional) return '';
    const meant = choiceMeant(answer, choices);
    if (meant) return meant.name;
    if (answer.trim() !== '') {
      const count = choices.length === 1 ? 'write 1' : `write a number from 1 to ${choices.length}`;
      print(
        `${wrap(style.text(oneLine(`${quoted(answer.trim())} is none of these; ${count}`)), style.options.width, 4).join('\n')}\n`,
      );
    }
  }
};
