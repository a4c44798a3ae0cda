import { distance } from 'fastest-levenshtein';

/** The known word that a misspelt one probably means, or null; case is ignored, a far-off word gives nothing. */
export const suggest = (typed: string, known: Iterable<string>): string | null => {
  if (typed.length > 60) return null;
  const word = typed.toLowerCase();
  let best: { name: string; away: number } | null = null;
  for (const name of known) {
    const away = distance(word, name.toLowerCase());
    if (best === null || away < best.away) best = { name, away };
  }
  return best && best.away <= Math.max(1, Math.floor(word.length / 3)) ? best.name : null;
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
