import { type Corner, isCorner } from './corner.ts';

/**
 * Channels and components share one spelling: a base name, and for those that exist at each corner a dot and the
 * corner (`position.LF`, `sensor.LR`, `tank`).
 */
export interface Key {
  readonly base: string;
  readonly corner: Corner | null;
}

/** Every corner's name has two letters, so the dot can only be the third character from the end. */
const dotFromEnd = 3;

/** Splits `position.LF` into its base and corner; a dot that no corner follows stays part of the base. */
export const parseKey = (text: string): Key => {
  const dot = text.length - dotFromEnd;
  if (dot <= 0 || text.charCodeAt(dot) !== 0x2e) return { base: text, corner: null };
  const tail = text.slice(dot + 1);
  return isCorner(tail) ? { base: text.slice(0, dot), corner: tail } : { base: text, corner: null };
};

/** A key from its parts. */
export const keyOf = (base: string, corner: Corner | null): string =>
  corner === null ? base : `${base}.${corner}`;
