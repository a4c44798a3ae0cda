import type { Insertion } from './insertion.ts';
import { lineEnding } from './line-ends.ts';

/** Lines at a place that `afterValue` found: behind the end of a line, or before the beginning of one. */
export const asLines = (text: string, at: number, lines: readonly string[]): Insertion => {
  const eol = lineEnding(text, at);
  const together = lines.join(eol);
  return { at, text: at > 0 && text[at - 1] === '\n' ? together + eol : eol + together };
};
