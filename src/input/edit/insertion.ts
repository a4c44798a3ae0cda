/** A text to be put into another at an offset; nothing of the other is taken away. */
export interface Insertion {
  readonly at: number;
  readonly text: string;
}

/** The text with all insertions made; offsets are those of the text before any of them. */
export const insert = (into: string, insertions: readonly Insertion[]): string => {
  let done = '';
  let from = 0;
  for (const { at, text } of [...insertions].sort((a, b) => a.at - b.at)) {
    done += into.slice(from, at) + text;
    from = at;
  }
  return done + into.slice(from);
};

/** A stretch of a text. */
export interface Stretch {
  readonly at: number;
  readonly length: number;
}

/** Where insertions stand in the text that they were made into. */
export const stretchesOf = (insertions: readonly Insertion[]): Stretch[] => {
  let before = 0;
  return [...insertions]
    .sort((a, b) => a.at - b.at)
    .map(({ at, text }) => {
      const stretch = { at: at + before, length: text.length };
      before += text.length;
      return stretch;
    });
};

/** The text without some stretches of it: undoes `insert`. */
export const takeOut = (from: string, stretches: readonly Stretch[]): string =>
  [...stretches]
    .sort((a, b) => b.at - a.at)
    .reduce((text, { at, length }) => text.slice(0, at) + text.slice(at + length), from);
