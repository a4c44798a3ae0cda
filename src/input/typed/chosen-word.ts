import { folded } from './typed-word.ts';

/**
 * The word of a list that an answer means: the word itself, its number in the list, or as much of its beginning as no
 * other word has; null where it means none or several.
 */
export const chosenWord = <T extends string>(typed: string, words: readonly T[]): T | null => {
  const own = typed.trim();
  if (/^\d{1,2}$/u.test(own)) return words[Number(own) - 1] ?? null;
  const begun = folded(own);
  if (begun === '') return null;
  const exact = words.find((word) => folded(word) === begun);
  const [only, ...more] = words.filter((word) => folded(word).startsWith(begun));
  return exact ?? (more.length === 0 ? (only ?? null) : null);
};

/** The words of a list with their numbers, as they are offered: `1 level, 2 sloped`. */
export const numbered = (words: readonly string[]): string =>
  words.map((word, index) => `${index + 1} ${word}`).join(', ');
