import { isPlainHex, isPlainNumber } from '../../job/plain-number.ts';
import type { ScalarNode } from '../tree.ts';
import {
  carriageReturn,
  colon,
  dash,
  doubleQuote,
  hash,
  isLineEnd,
  newline,
  type Scan,
  singleQuote,
  space,
} from './scan.ts';

/** Everything that YAML's core schema takes for a number. */
const numberLike =
  /^(?:0o[0-7]+|0x[0-9a-fA-F]+|[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN)|[-+]?(?:\.\d+|\d+(?:\.\d*)?)(?:[eE][-+]?\d+)?)$/u;

const words: ReadonlyMap<string, boolean | null> = new Map<string, boolean | null>([
  ...['true', 'True', 'TRUE'].map((word) => [word, true] as const),
  ...['false', 'False', 'FALSE'].map((word) => [word, false] as const),
  ...['~', 'null', 'Null', 'NULL'].map((word) => [word, null] as const),
]);

const isDigit = (code: number): boolean => code >= 0x30 && code <= 0x39;
const isLetter = (code: number): boolean => (code | 0x20) >= 0x61 && (code | 0x20) <= 0x7a;

/** Whether a key or word may begin with a character: letters, digits, `_`, and what is not ASCII. */
const beginsWord = (code: number): boolean => isLetter(code) || isDigit(code) || code === 0x5f || code > 0xa0;

/** `( ) + . / < ~`, and a dash or plus with a digit behind it, may begin a value as well. */
const beginsValue = (text: string, at: number): boolean => {
  const code = text.charCodeAt(at);
  if (beginsWord(code)) return true;
  if (code !== dash) {
    return code === 0x28 || code === 0x2b || code === 0x2e || code === 0x2f || code === 0x3c || code === 0x7e;
  }
  const next = text.charCodeAt(at + 1);
  return isDigit(next) || isLetter(next);
};

const isFlowSign = (code: number): boolean =>
  code === 0x2c || code === 0x5b || code === 0x5d || code === 0x7b || code === 0x7d;

/** The end of plain text from an offset: before a comment, a colon that ends a key, or in brackets their signs. */
const plainEnd = (text: string, from: number, flow: boolean): number => {
  let end = from;
  for (let at = from; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === space) continue;
    if (code === newline || code === carriageReturn || (flow && isFlowSign(code))) return end;
    if (code === colon) {
      const next = text.charCodeAt(at + 1);
      if (next === space || isLineEnd(next) || (flow && isFlowSign(next))) return end;
    } else if (code === hash && text.charCodeAt(at - 1) === space) return end;
    end = at + 1;
  }
  return end;
};

/** What plain text means, or undefined where that is not known for certain. */
const plainValue = (text: string, key: string): ScalarNode['value'] | undefined => {
  const code = text.charCodeAt(0);
  if (isDigit(code) || code === dash || code === 0x2b || code === 0x2e) {
    // No number has a blank in it, and most readings have.
    if (text.includes(' ')) return text;
    if (isPlainNumber(text)) return Number(text);
    if ((key === 'code' || key === 'status') && isPlainHex(text)) return Number(text);
    return numberLike.test(text) ? undefined : text;
  }
  return text.length <= 5 && words.has(text) ? words.get(text) : text;
};

/** Text in quotes on one line, without escapes; null for any other. */
const readQuoted = (scan: Scan, quote: number): ScalarNode | null => {
  const { text, at: start } = scan;
  let doubled = false;
  let at = start + 1;
  for (; ; at += 1) {
    const code = text.charCodeAt(at);
    if (isLineEnd(code) || code === 0x5c) return null;
    if (code !== quote) continue;
    if (quote === doubleQuote || text.charCodeAt(at + 1) !== quote) break;
    doubled = true;
    at += 1;
  }
  const inner = text.slice(start + 1, at);
  const value = doubled ? inner.replaceAll("''", "'") : inner;
  scan.at = at + 1;
  return { kind: 'scalar', value, text: value, start, end: at + 1 };
};

/**
 * One value on one line, in quotes or plain.
 *
 * @param key the key that it stands behind: the bytes of a code may be typed as `0x5A21`
 */
export const readScalar = (scan: Scan, flow: boolean, key: string): ScalarNode | null => {
  const { text, at: start } = scan;
  const code = text.charCodeAt(start);
  if (code === singleQuote || code === doubleQuote) return readQuoted(scan, code);
  if (!beginsValue(text, start)) return null;
  const end = plainEnd(text, start, flow);
  const source = text.slice(start, end);
  const value = plainValue(source, key);
  if (value === undefined) return null;
  scan.at = end;
  return { kind: 'scalar', value, text: source, start, end };
};

/** Longer keys need a look at where exactly the colon stands. */
const longestKey = 1000;

/** A key and its colon, with a blank or the end of the line behind it; null for anything else. */
export const readKey = (scan: Scan, flow: boolean): string | null => {
  const { text, at: start } = scan;
  const code = text.charCodeAt(start);
  let key: string;
  if (code === singleQuote || code === doubleQuote) key = readQuoted(scan, code)?.text ?? '';
  else if (beginsWord(code)) {
    scan.at = plainEnd(text, start, flow);
    key = text.slice(start, scan.at);
  } else return null;
  if (key === '' || text.charCodeAt(scan.at) !== colon || scan.at - start > longestKey) return null;
  scan.at += 1;
  const next = text.charCodeAt(scan.at);
  return next === space || (!flow && isLineEnd(next)) ? key : null;
};
