import type { Entry, Node } from '../tree.ts';
import { folded, literal, readBlockText } from './block-text.ts';
import { readValue } from './flow.ts';
import { closeBlock, endLine, toContent } from './line-end.ts';
import { readKey } from './scalar.ts';
import { dash, hash, isLineEnd, openBrace, openBracket, opens, type Scan, space } from './scan.ts';

const isDash = ({ text, at }: Scan): boolean =>
  text.charCodeAt(at) === dash && text.charCodeAt(at + 1) === space;

/** A value that begins on this line, and the way to the next content. */
const readInline = (scan: Scan, indent: number, key: string): Node | null => {
  const code = scan.text.charCodeAt(scan.at);
  const inBlock = code === folded || code === literal;
  const node = inBlock ? readBlockText(scan, indent) : readValue(scan, false, indent, key);
  if (node === null || !(inBlock || endLine(scan))) return null;
  // A text in a block has ended with its line, and no comment below belongs to it.
  toContent(scan, inBlock ? Number.POSITIVE_INFINITY : indent);
  return node;
};

/** What stands below a key: a map or brackets further in, or a list that may stand right below the key. */
const readBelow = (scan: Scan, indent: number, key: string): Node | null => {
  if (!endLine(scan)) return null;
  toContent(scan, indent);
  if (scan.column < 0) return null;
  if (isDash(scan)) return scan.column >= indent ? readList(scan, scan.column, key) : null;
  if (scan.column <= indent) return null;
  const code = scan.text.charCodeAt(scan.at);
  const inBrackets = code === openBrace || code === openBracket;
  return inBrackets ? readInline(scan, indent, key) : readBlock(scan, scan.column);
};

const readBehindKey = (scan: Scan, indent: number, key: string): Node | null => {
  const from = scan.at;
  while (scan.text.charCodeAt(scan.at) === space) scan.at += 1;
  const code = scan.text.charCodeAt(scan.at);
  if (!isLineEnd(code) && code !== hash) return readInline(scan, indent, key);
  // A comment wants a blank before it.
  scan.at = from;
  return readBelow(scan, indent, key);
};

/** An item behind its dash: a value, or a map whose first key stands there. */
const readItem = (scan: Scan, indent: number, key: string): Node | null => {
  const { text } = scan;
  const dashAt = scan.at;
  scan.at += 1;
  while (text.charCodeAt(scan.at) === space) scan.at += 1;
  const start = scan.at;
  // What is no key is read once more from its beginning, as a value.
  const keyed = readKey(scan, false) !== null;
  scan.at = start;
  return keyed ? readBlock(scan, indent + start - dashAt) : readInline(scan, indent, key);
};

const readList = (scan: Scan, indent: number, key: string): Node | null => {
  if (!opens(scan)) return null;
  const start = scan.at;
  const items: Node[] = [];
  do {
    const item = readItem(scan, indent, key);
    if (item === null) return null;
    items.push(item);
  } while (scan.column === indent && isDash(scan));
  if (scan.column > indent) return null;
  return { kind: 'list', items, start, end: closeBlock(scan, indent), flow: false };
};

/** The map whose first key stands here; null as soon as a line is not known for certain. */
export const readBlock = (scan: Scan, indent: number): Node | null => {
  if (!opens(scan)) return null;
  const start = scan.at;
  const entries = new Map<string, Entry>();
  let keys = 0;
  do {
    const keyStart = scan.at;
    const key = readKey(scan, false);
    if (key === null) return null;
    const node = readBehindKey(scan, indent, key);
    if (node === null) return null;
    entries.set(key, { key, keyStart, node });
    // One that was there before has not made it larger.
    keys += 1;
    if (entries.size < keys) return null;
  } while (scan.column === indent && !isDash(scan));
  if (scan.column > indent) return null;
  return { kind: 'map', entries, start, end: closeBlock(scan, indent), flow: false };
};
