import { quoted } from '../quoted.ts';
import { didYouMean } from '../suggest.ts';
import { right, type Typed, wrong } from './typed.ts';

/** A word without its case, blanks and dashes. */
export const folded = (word: string): string => word.toLowerCase().replace(/[\s_-]/gu, '');

/**
 * One of a closed list of words, in any case, with or without its dashes.
 *
 * @param what what the word says, for the message: `a state`
 */
export const typedWord = <T extends string>(typed: string, words: readonly T[], what: string): Typed<T> => {
  const found =
    words.find((one) => one === typed.trim()) ?? words.find((one) => folded(one) === folded(typed));
  if (found !== undefined) return right(found);
  if (typed.trim() === '') return wrong(typed, 'nothing is typed here', didYouMean('', words));
  const begun = folded(typed);
  const [only, ...others] = begun.length < 2 ? [] : words.filter((one) => folded(one).startsWith(begun));
  const hint =
    only !== undefined && others.length === 0 ? `did you mean ${only}?` : didYouMean(typed.trim(), words);
  return wrong(typed, `${quoted(typed)} is not ${what}`, hint);
};
