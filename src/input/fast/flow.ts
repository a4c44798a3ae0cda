import type { Entry, Node } from '../tree.ts';
import { readKey, readScalar } from './scalar.ts';
import {
  closeBrace,
  closeBracket,
  comma,
  newline,
  openBrace,
  openBracket,
  opens,
  type Scan,
  space,
} from './scan.ts';

/** Moves over blanks and line ends; false where a line is not indented further than the block that holds it. */
const skipSpace = (scan: Scan, indent: number): boolean => {
  const { text } = scan;
  let lineStart = -1;
  for (; ; scan.at += 1) {
    const code = text.charCodeAt(scan.at);
    if (code === newline) lineStart = scan.at + 1;
    else if (code !== space && code !== 0x0d) break;
  }
  return lineStart < 0 || scan.at - lineStart > indent;
};

/**
 * Reads to the closing bracket, an item at a time. A comma wants a blank or a new line behind it, since without one
 * it may be a decimal comma; lines end behind a comma or an opening bracket and nowhere else.
 */
const readItems = (scan: Scan, indent: number, close: number, readItem: () => boolean): boolean => {
  if (!opens(scan)) return false;
  scan.at += 1;
  if (!skipSpace(scan, indent)) return false;
  if (scan.text.charCodeAt(scan.at) === close) {
    scan.at += 1;
    scan.depth -= 1;
    return true;
  }
  for (;;) {
    if (!readItem()) return false;
    while (scan.text.charCodeAt(scan.at) === space) scan.at += 1;
    const code = scan.text.charCodeAt(scan.at);
    scan.at += 1;
    if (code === close) {
      scan.depth -= 1;
      return true;
    }
    const from = scan.at;
    if (code !== comma || !skipSpace(scan, indent) || scan.at === from) return false;
  }
};

const readList = (scan: Scan, indent: number, key: string): Node | null => {
  const start = scan.at;
  const items: Node[] = [];
  const readItem = (): boolean => {
    const item = readValue(scan, true, indent, key);
    if (item) items.push(item);
    return item !== null;
  };
  return readItems(scan, indent, closeBracket, readItem)
    ? { kind: 'list', items, start, end: scan.at, flow: true }
    : null;
};

const readMap = (scan: Scan, indent: number): Node | null => {
  const start = scan.at;
  const entries = new Map<string, Entry>();
  const readItem = (): boolean => {
    const keyStart = scan.at;
    const key = readKey(scan, true);
    if (key === null || entries.has(key)) return false;
    while (scan.text.charCodeAt(scan.at) === space) scan.at += 1;
    const node = readValue(scan, true, indent, key);
    if (node) entries.set(key, { key, keyStart, node });
    return node !== null;
  };
  return readItems(scan, indent, closeBrace, readItem)
    ? { kind: 'map', entries, start, end: scan.at, flow: true }
    : null;
};

/**
 * A scalar, or a list or map in brackets; null for anything else, after which nothing more is read.
 *
 * @param flow whether it stands in brackets itself
 * @param indent the column of the block that holds it
 */
export const readValue = (scan: Scan, flow: boolean, indent: number, key: string): Node | null => {
  const code = scan.text.charCodeAt(scan.at);
  if (code === openBracket) return readList(scan, indent, key);
  return code === openBrace ? readMap(scan, indent) : readScalar(scan, flow, key);
};
