import type { Entry, Node } from '../tree.ts';
import { readKey, readScalar } from './scalar.ts';
import {
  carriageReturn,
  closeBrace,
  closeBracket,
  comma,
  mostValues,
  newline,
  openBrace,
  openBracket,
  opens,
  type Scan,
  space,
} from './scan.ts';

/**
 * Moves over blanks and line ends; false where a line is not indented further than the block that holds it, and where
 * the text ends.
 */
const skipSpace = (scan: Scan, indent: number): boolean => {
  const { text } = scan;
  let lineStart = -1;
  for (; scan.at < text.length; scan.at += 1) {
    const code = text.charCodeAt(scan.at);
    if (code === newline) lineStart = scan.at + 1;
    else if (code !== space && code !== carriageReturn) return lineStart < 0 || scan.at - lineStart > indent;
  }
  return false;
};

/**
 * Moves behind an opening bracket and the blanks there; whether the collection closes at once, or null where nothing
 * is known of it.
 */
const closesAtOnce = (scan: Scan, indent: number, close: number): boolean | null => {
  if (!opens(scan)) return null;
  scan.at += 1;
  if (!skipSpace(scan, indent)) return null;
  if (scan.text.charCodeAt(scan.at) !== close) return false;
  scan.at += 1;
  scan.depth -= 1;
  return true;
};

/**
 * Moves behind what follows an item: whether that is the closing bracket or a comma, or null for anything else. A
 * comma wants a blank or a new line behind it, since without one it may be a decimal comma; lines end behind a comma
 * or an opening bracket and nowhere else.
 */
const closesAfter = (scan: Scan, indent: number, close: number): boolean | null => {
  const { text } = scan;
  while (text.charCodeAt(scan.at) === space) scan.at += 1;
  const code = text.charCodeAt(scan.at);
  scan.at += 1;
  if (code === close) {
    scan.depth -= 1;
    return true;
  }
  const from = scan.at;
  return code === comma && skipSpace(scan, indent) && scan.at > from ? false : null;
};

const readList = (scan: Scan, indent: number, key: string): Node | null => {
  const start = scan.at;
  const items: Node[] = [];
  let closed = closesAtOnce(scan, indent, closeBracket);
  while (closed === false) {
    const item = readValue(scan, true, indent, key);
    if (item === null) return null;
    items.push(item);
    closed = closesAfter(scan, indent, closeBracket);
  }
  return closed === null ? null : { kind: 'list', items, start, end: scan.at, flow: true };
};

const readMap = (scan: Scan, indent: number): Node | null => {
  const start = scan.at;
  const entries = new Map<string, Entry>();
  let keys = 0;
  let closed = closesAtOnce(scan, indent, closeBrace);
  while (closed === false) {
    const keyStart = scan.at;
    const key = readKey(scan, true);
    if (key === null) return null;
    while (scan.text.charCodeAt(scan.at) === space) scan.at += 1;
    const node = readValue(scan, true, indent, key);
    if (node === null) return null;
    entries.set(key, { key, keyStart, node });
    // One that was there before has not made it larger.
    keys += 1;
    closed = entries.size < keys ? null : closesAfter(scan, indent, closeBrace);
  }
  return closed === null ? null : { kind: 'map', entries, start, end: scan.at, flow: true };
};

/**
 * A scalar, or a list or map in brackets; null for anything else, after which nothing more is read.
 *
 * @param flow whether it stands in brackets itself
 * @param indent the column of the block that holds it
 */
export const readValue = (scan: Scan, flow: boolean, indent: number, key: string): Node | null => {
  scan.values += 1;
  if (scan.values > mostValues) return null;
  const code = scan.text.charCodeAt(scan.at);
  if (code === openBracket) return readList(scan, indent, key);
  return code === openBrace ? readMap(scan, indent) : readScalar(scan, flow, key);
};
