import type { Insertion } from './insertion.ts';
import { endOfLine, lineEnding, startOfLine } from './line-ends.ts';

/** The offset of the next comma after blanks and comments, or null where something else comes first. */
const commaAfter = (text: string, from: number): number | null => {
  let at = from;
  while (at < text.length) {
    const character = text[at] ?? '';
    if (character === ',') return at;
    if (character === '#' && /\s/u.test(text[at - 1] ?? '')) at = endOfLine(text, at);
    else if (/\s/u.test(character)) at += 1;
    else return null;
  }
  return null;
};

/** The blanks before an item that begins its line, or null where it does not. */
const ownLineIndent = (text: string, start: number): string | null => {
  const before = text.slice(startOfLine(text, start), start);
  return before.trim() === '' ? before : null;
};

/**
 * Puts things behind the last one in brackets or braces, as it stands: on a line of its own where it does, after
 * the comma where there is one at the end.
 *
 * @param last where the last thing in the brackets begins and ends; null where they are empty
 * @param open the offset behind the opening bracket
 */
export const intoFlow = (
  text: string,
  open: number,
  last: { readonly start: number; readonly end: number } | null,
  added: readonly string[],
): Insertion[] => {
  if (last === null) return [{ at: open, text: added.join(', ') }];
  const indent = ownLineIndent(text, last.start);
  const eol = lineEnding(text, last.start);
  const between = indent === null ? ' ' : `${eol}${indent}`;
  const comma = commaAfter(text, last.end);
  const together = added.join(`,${between}`);
  if (indent === null) {
    return [
      comma === null ? { at: last.end, text: `, ${together}` } : { at: comma + 1, text: ` ${together},` },
    ];
  }
  // A comment behind the last thing stays with it.
  const from = comma === null ? last.end : comma + 1;
  const stop = endOfLine(text, from);
  const rest = text.slice(from, stop).trim();
  const at = rest === '' || rest.startsWith('#') ? stop : from;
  if (comma !== null) return [{ at, text: `${between}${together},` }];
  if (at === last.end) return [{ at, text: `,${between}${together}` }];
  return [
    { at: last.end, text: ',' },
    { at, text: `${between}${together}` },
  ];
};
