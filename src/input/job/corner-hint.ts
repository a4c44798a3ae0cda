import { type Corner, corners, isCorner } from '../../core/corner.ts';

/** Words that people use for a corner, folded to letters only. */
const spelt: Readonly<Record<string, Corner>> = {
  leftfront: 'LF',
  frontleft: 'LF',
  rightfront: 'RF',
  frontright: 'RF',
  leftrear: 'LR',
  rearleft: 'LR',
  rightrear: 'RR',
  rearright: 'RR',
};

/** The corner that another spelling means: small letters, the two letters swapped (FL), or both words written out. */
export const cornerMeant = (typed: string): Corner | null => {
  const upper = typed.toUpperCase();
  if (isCorner(upper)) return upper;
  const swapped = [...upper].reverse().join('');
  if (isCorner(swapped)) return swapped;
  const word = typed.toLowerCase().replace(/[^a-z]/gu, '');
  return Object.hasOwn(spelt, word) ? (spelt[word] ?? null) : null;
};

/** What to write for something that is not a corner; other habits are told, never guessed. */
export const cornerHint = (typed: string): string => {
  const guess = cornerMeant(typed);
  return guess ? `did you mean ${guess}?` : `it can be ${corners.join(', ')}`;
};

/** Whether a word was surely meant as a corner, however it was spelt. */
export const meansCorner = (typed: string): boolean => cornerMeant(typed) !== null;
