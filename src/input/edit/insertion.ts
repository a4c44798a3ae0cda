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
