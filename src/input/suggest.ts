import { distance } from 'fastest-levenshtein';
import { mayBeOffered } from './weighty-words.ts';

/** Two neighbouring letters changed places: one slip, though two letters differ. */
const swapped = (typed: string, name: string): boolean => {
  const at = [...typed].findIndex((letter, index) => letter !== name[index]);
  const turned = `${typed.slice(0, at)}${typed[at + 1] ?? ''}${typed[at] ?? ''}${typed.slice(at + 2)}`;
  return at >= 0 && turned === name;
};

/** Letters that are enough to begin a word with. */
const begun = 3;

/** The one word that was begun; null where none was, or it could be any of several. */
const begunBy = (word: string, names: readonly string[]): string | null => {
  if (word.length < begun) return null;
  const fits = names.filter((name) => name.toLowerCase().startsWith(word));
  const [shortest] = fits.sort((a, b) => a.length - b.length);
  const all = shortest?.toLowerCase() ?? '';
  return shortest !== undefined && fits.every((name) => name.toLowerCase().startsWith(all)) ? shortest : null;
};

/**
 * The known word that a misspelt one probably means, or null; case is ignored, a far-off word gives nothing, and a word
 * that would erase or end something is not offered for one that only resembles it. A word that was begun comes before
 * others that look like it.
 */
export const suggest = (typed: string, known: Iterable<string>): string | null => {
  if (typed.length > 60) return null;
  const word = typed.toLowerCase();
  const names = [...known].filter((name) => mayBeOffered(word, name.toLowerCase()));
  const meant = begunBy(word, names);
  if (meant !== null) return meant;
  let best: { name: string; away: number } | null = null;
  for (const name of names) {
    const lower = name.toLowerCase();
    const away = swapped(word, lower) ? 1 : distance(word, lower);
    if (best === null || away < best.away) best = { name, away };
  }
  // A word of which nothing is left was not misspelt.
  const near = Math.min(Math.max(1, Math.floor(word.length / 3)), word.length - 1);
  return best && best.away <= near ? best.name : null;
};

/** A hint that offers the nearest word first, and the whole choice where it is short. */
export const didYouMean = (
  typed: string,
  known: readonly string[],
  otherwise: string | null = null,
): string | null => {
  const close = suggest(typed, known);
  if (close) return `did you mean ${close}?`;
  if (otherwise !== null) return otherwise;
  return known.length > 0 && known.length <= 24 ? `it can be ${known.join(', ')}` : null;
};
