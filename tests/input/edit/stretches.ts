import type { Insertion } from '../../../src/input/edit/insertion.ts';

/** A stretch of a text, and what stood in its place before, if anything did. */
export interface Stretch {
  readonly at: number;
  readonly length: number;
  readonly was?: string;
}

/**
 * Where insertions stand in the text that came of them.
 *
 * @param into the text before any of them
 */
export const stretchesOf = (insertions: readonly Insertion[], into: string): Stretch[] => {
  let before = 0;
  return [...insertions]
    .sort((a, b) => a.at - b.at)
    .map(({ at, text, replaces = 0 }) => {
      const was = replaces > 0 ? { was: into.slice(at, at + replaces) } : {};
      const stretch = { at: at + before, length: text.length, ...was };
      before += text.length - replaces;
      return stretch;
    });
};

/** The text with some stretches of it as they were: undoes `insert`. */
export const takeOut = (from: string, stretches: readonly Stretch[]): string =>
  [...stretches]
    .sort((a, b) => b.at - a.at)
    .reduce((text, { at, length, was = '' }) => text.slice(0, at) + was + text.slice(at + length), from);
