/** A text to be put into another at an offset. */
export interface Insertion {
  readonly at: number;
  readonly text: string;
  /** How many characters from the offset on it takes the place of; none where absent. */
  readonly replaces?: number;
}

/** The text with all insertions made; offsets are those of the text before any of them. */
export const insert = (into: string, insertions: readonly Insertion[]): string => {
  let done = '';
  let from = 0;
  for (const { at, text, replaces = 0 } of [...insertions].sort((a, b) => a.at - b.at)) {
    done += into.slice(from, at) + text;
    from = at + replaces;
  }
  return done + into.slice(from);
};

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
