import type { ScalarNode } from '../tree.ts';
import { endLine } from './line-end.ts';
import { dash, isLineEnd, type Scan, space } from './scan.ts';

export const folded = 0x3e;
export const literal = 0x7c;

/** How many blanks stand at an offset. */
const blanksAt = (text: string, at: number): number => {
  let end = at;
  while (text.charCodeAt(end) === space) end += 1;
  return end - at;
};

interface Line {
  readonly blanks: number;
  /** What stands behind the blanks, without the line's end. */
  readonly content: string;
  /** Where the next line begins. */
  readonly next: number;
}

const lineAt = (text: string, at: number): Line => {
  const blanks = blanksAt(text, at);
  const newlineAt = text.indexOf('\n', at + blanks);
  const end = newlineAt < 0 ? text.length : newlineAt;
  const content = text.slice(at + blanks, text.charCodeAt(end - 1) === 0x0d ? end - 1 : end);
  return { blanks, content, next: newlineAt < 0 ? end : end + 1 };
};

/**
 * The lines of a text in a block and where it ends, behind the end of its last line; null where a line is indented
 * otherwise than the first, or holds nothing but blanks. An empty line is one between two others: those behind the
 * last belong to what follows.
 */
const readLines = (text: string, from: number, indent: number): { lines: string[]; end: number } | null => {
  const column = blanksAt(text, from);
  if (column <= indent || isLineEnd(text.charCodeAt(from + column))) return null;
  const lines: string[] = [];
  let filled = 0;
  let end = from;
  for (let at = from; at < text.length; ) {
    const { blanks, content, next } = lineAt(text, at);
    if (content !== '' && blanks < column) break;
    if (content === '' ? blanks > 0 : blanks > column) return null;
    lines.push(content);
    if (content !== '') {
      filled = lines.length;
      end = next;
    }
    at = next;
  }
  return { lines: lines.slice(0, filled), end };
};

/** Lines to one text: a line end is a blank, and each empty line a line end. */
const fold = (lines: readonly string[]): string => {
  let value = '';
  let between = '';
  for (const line of lines) {
    if (line === '') between = between === ' ' ? '\n' : `${between}\n`;
    else {
      value += between + line;
      between = ' ';
    }
  }
  return value;
};

/**
 * A text that begins below its sign: `>` or `|`, with a dash where its last line end is left out. Null for one with
 * another sign, and for lines of different indents.
 *
 * @param indent the column of the block that holds it
 */
export const readBlockText = (scan: Scan, indent: number): ScalarNode | null => {
  const { text, at: start } = scan;
  const isFolded = text.charCodeAt(start) === folded;
  const cut = text.charCodeAt(start + 1) === dash;
  scan.at += cut ? 2 : 1;
  if (!endLine(scan)) return null;
  const read = readLines(text, scan.at, indent);
  if (read === null) return null;
  scan.at = read.end;
  const value = (isFolded ? fold(read.lines) : read.lines.join('\n')) + (cut ? '' : '\n');
  return { kind: 'scalar', value, text: value, start, end: Math.min(read.end, scan.end) };
};
