import type { ProblemCode } from '../core/flaw.ts';

/** Something wrong with an input, where it stands and what to do about it. */
export interface Problem {
  readonly code: ProblemCode;
  readonly message: string;
  readonly hint: string | null;
  /** Counted from 1; null where the whole file is at fault. */
  readonly line: number | null;
  readonly column: number | null;
  /** The offending line as it stands in the file, for showing under the message. */
  readonly lineText: string | null;
  /** The file at fault where it is not the one that was asked for (a rule pack, the shop file). */
  readonly file: string | null;
}

/** A flaw at an offset of a text; turned into a problem once all of them are known. */
export interface LocatedFlaw {
  readonly code: ProblemCode;
  readonly at: number;
  readonly message: string;
  readonly hint: string | null;
}

/** A problem with a file as a whole. */
export const wholeFile = (
  code: ProblemCode,
  message: string,
  hint: string | null,
  file: string | null = null,
): Problem => ({
  code,
  message,
  hint,
  line: null,
  column: null,
  lineText: null,
  file,
});

const lineStarts = (text: string): number[] => {
  const starts = [0];
  for (const match of text.matchAll(/\r\n|\n|\r/gu)) starts.push(match.index + match[0].length);
  return starts;
};

/**
 * Turns flaws into problems with line, column and the offending line, in the order in which they stand in the text.
 * Two flaws at one place are one mistake: the first found speaks.
 */
export const locate = (
  text: string,
  flaws: readonly LocatedFlaw[],
  file: string | null = null,
): Problem[] => {
  const starts = lineStarts(text);
  const seen = new Set<number>();
  return [...flaws]
    .sort((a, b) => a.at - b.at)
    .filter(({ at }) => !seen.has(at) && seen.add(at))
    .map(({ code, at, message, hint }) => {
      let low = 0;
      let high = starts.length - 1;
      while (low < high) {
        const middle = Math.ceil((low + high) / 2);
        if ((starts[middle] ?? 0) <= at) low = middle;
        else high = middle - 1;
      }
      const start = starts[low] ?? 0;
      const lineText = text.slice(start, starts[low + 1] ?? text.length).replace(/[\r\n]+$/u, '');
      return { code, message, hint, line: low + 1, column: at - start + 1, lineText, file };
    });
};
