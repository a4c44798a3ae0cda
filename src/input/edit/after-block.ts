import type { Node, ScalarNode } from '../yaml/tree.ts';
import { endOfLine, nextLine } from './line-ends.ts';

/** The last scalar in a node, however deep; in brackets nothing is looked for. */
const lastIn = (node: Node): Node => {
  if (node.kind === 'scalar' || node.flow) return node;
  const last = node.kind === 'list' ? node.items.at(-1) : [...node.entries.values()].at(-1)?.node;
  return last === undefined ? node : lastIn(last);
};

/** Whether blank lines that follow a node would become part of it: it ends with a text behind `|+` or `>+`. */
export const takesBlanks = (text: string, node: Node): boolean => {
  const { kind, start, end } = lastIn(node);
  return kind === 'scalar' && /^[|>]\d?\+/u.test(text.slice(start, Math.min(end, start + 3)));
};

/** Where a scalar ends. Blank lines below a block text are no part of it, unless it keeps them. */
const scalarEnd = (text: string, node: ScalarNode): number => {
  const { value, start, end } = node;
  const isBlock = text[end - 1] === '\n' && end > start;
  // A last line of nothing but surplus blanks is part of the text, too.
  const endsInBlanks = typeof value === 'string' && /[^\S\n]\n?$/u.test(value);
  return isBlock && !endsInBlanks && !takesBlanks(text, node)
    ? start + text.slice(start, end).trimEnd().length
    : end;
};

/** Where the last thing in a node ends; for a collection without brackets that is the end of its last value. */
export const contentEnd = (text: string, node: Node): number => {
  const last = lastIn(node);
  return last.kind === 'scalar' ? scalarEnd(text, last) : last.end;
};

/** How far a comment must be indented to belong to what stands before it. */
export interface Reach {
  readonly comments: number;
}

/**
 * Where new lines go after a value that ends at `end`: behind the rest of its line, and behind the comment lines
 * below it that are indented far enough to belong to it. A block text ends with its own line break, so that the
 * offset may be the beginning of a line.
 */
export const afterValue = (text: string, end: number, { comments }: Reach): number => {
  let place = end > 0 && text[end - 1] === '\n' ? end : endOfLine(text, end);
  let line = text[place - 1] === '\n' ? place : nextLine(text, place);
  while (line !== null && line < text.length) {
    const stop = endOfLine(text, line);
    const content = text.slice(line, stop);
    const indent = content.length - content.trimStart().length;
    if (content.trim() !== '') {
      if (content[indent] !== '#' || indent < comments) break;
      place = stop;
    }
    line = nextLine(text, stop);
  }
  return place;
};
