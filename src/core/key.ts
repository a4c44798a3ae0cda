import { type Corner, isCorner } from './corner.ts';

/**
 * Channels and components share one spelling: a base name, and for those that exist at each corner a dot and the
 * corner (`position.LF`, `sensor.LR`, `tank`).
 */
export interface Key {
  readonly base: string;
  readonly corner: Corner | null;
}

/** Splits `position.LF` into its base and corner; a dot that no corner follows stays part of the base. */
export const parseKey = (text: string): Key => {
  const dot = text.lastIndexOf('.');
  const tail = text.slice(dot + 1);
  return dot > 0 && isCorner(tail)
    ? { base: text.slice(0, dot), corner: tail }
    : { base: text, corner: null };
};

export const keyOf = (base: string, corner: Corner | null): string =>
  corner === null ? base : `${base}.${corner}`;
