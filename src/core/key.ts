import { type Corner, isCorner } from './corner.ts';

/**
 * Channels and components share one spelling: a base name, and for those that exist at each corner a dot and the
 * corner (`position.LF`, `sensor.LR`, `tank`).
 */
export interface Key {
  readonly base: string;
  readonly corner: Corner | null;
}

/** Every corner's name is two letters long, so that the dot can only stand before the last two. */
const dotFromEnd = 3;

/** Splits `position.LF` into its base and corner; a dot that no corner follows stays part of the base. */
export const parseKey = (text: string): Key => {
  const dot = text.length - dotFromEnd;
  if (dot <= 0 || text.charCodeAt(dot) !== 0x2e) return { base: text, corner: null };
  const tail = text.slice(dot + 1);
  return isCorner(tail) ? { base: text.slice(0, dot), corner: tail } : { base: text, corner: null };
};

/** Keys at corners by their base; there are as many bases as packs name. */
const atCorners = new Map<string, Readonly<Record<Corner, string>>>();

/** A key from its parts. It is the same string each time, which whoever looks it up is quicker for. */
export const keyOf = (base: string, corner: Corner | null): string => {
  if (corner === null) return base;
  let keys = atCorners.get(base);
  if (keys === undefined) {
    keys = { LF: `${base}.LF`, RF: `${base}.RF`, LR: `${base}.LR`, RR: `${base}.RR` };
    atCorners.set(base, keys);
  }
  return keys[corner];
};
