/** The lines of a text: where each begins, and on which an offset lies. */
export interface Lines {
  /** Counted from 1. */
  readonly lineOf: (at: number) => number;
  /** The offset at which a line begins. */
  readonly startOf: (line: number) => number;
  /** A line without its end. */
  readonly textOf: (line: number) => string;
}

/** Finds the lines of a text once, so that asking costs little however often it is done. */
export const linesOf = (text: string): Lines => {
  const starts = [0];
  for (const match of text.matchAll(/\r\n|\n|\r/gu)) starts.push(match.index + match[0].length);
  const startOf = (line: number): number => starts[line - 1] ?? 0;
  return {
    startOf,
    lineOf: (at) => {
      let low = 0;
      let high = starts.length - 1;
      while (low < high) {
        const middle = Math.ceil((low + high) / 2);
        if ((starts[middle] ?? 0) <= at) low = middle;
        else high = middle - 1;
      }
      return low + 1;
    },
    textOf: (line) => text.slice(startOf(line), starts[line] ?? text.length).replace(/[\r\n]+$/u, ''),
  };
};
