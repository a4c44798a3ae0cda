import { codePointName, findControl } from '../yaml/control.ts';
import { right, type Typed, wrong } from './typed.ts';

/** The longest text that a file takes, and the longest name. */
export const longest = { text: 4000, name: 120 } as const;

/**
 * A free text as typed: not empty, no longer than a file takes, and without characters that cannot be seen.
 *
 * @param at the word of the command line that it stands in, for the message
 * @param most how many characters it may have
 */
export const typedText = (typed: string, at = typed, most: number = longest.text): Typed<string> => {
  const own = typed.replace(/\r\n/gu, '\n').trim();
  if (own === '') return wrong(at, 'nothing is written here', 'write it in a few words, or leave it out');
  const control = findControl(own);
  if (control !== null) {
    return wrong(at, `it holds the invisible character ${codePointName(control)}`, 'remove it');
  }
  return own.length > most
    ? wrong(at, `this has ${own.length} characters, and the limit is ${most}`, 'shorten it')
    : right(own);
};
