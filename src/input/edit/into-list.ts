import type { ListNode, Node } from '../yaml/tree.ts';
import { afterValue, contentEnd, takesBlanks } from './after-block.ts';
import { asLines } from './as-lines.ts';
import type { Insertion } from './insertion.ts';
import { intoFlow } from './into-flow.ts';
import { startOfLine } from './line-ends.ts';
import type { Value } from './value.ts';
import { contentLines, inline } from './write-value.ts';

/** An item in the manner of the one before it: in braces, or a key a line. */
const inMannerOf = (last: Node | undefined, item: Value): Value =>
  last?.kind === 'map' && item.kind === 'map' ? { ...item, style: last.flow ? 'flow' : 'block' } : item;

/** Whether a blank line parts two neighbours. */
export const apart = (text: string, before: Node, after: { readonly start: number }): boolean =>
  /\n[ \t]*\r?\n[^\n]*$/u.test(text.slice(contentEnd(text, before), after.start));

/**
 * Items at the end of a list, written as the last one is.
 *
 * @param keyColumn the column of the key that the list belongs to
 * @param quoted true in a file whose texts all stand in quotes
 */
export const intoList = (
  text: string,
  list: ListNode,
  items: readonly Value[],
  keyColumn: number,
  quoted: boolean,
): Insertion[] => {
  const last = list.items.at(-1);
  if (list.flow) {
    const added = items.map((item) => inline(item, quoted));
    return intoFlow(text, list.start + 1, last ?? null, added);
  }
  const column = list.start - startOfLine(text, list.start);
  const gap = /^ +$/u.exec(text.slice(list.start + 1, list.items[0]?.start))?.[0] ?? ' ';
  const before = list.items.at(-2);
  const isApart = before && last && apart(text, before, last);
  const blank = isApart && !takesBlanks(text, last) ? [''] : [];
  const added = items.flatMap((item) => {
    const [first = '', ...more] = contentLines(inMannerOf(last, item), column + 1 + gap.length);
    return [...blank, `${' '.repeat(column)}-${gap}${first}`, ...more];
  });
  const comments = column > keyColumn ? column : column + 1;
  return [asLines(text, afterValue(text, contentEnd(text, list), { comments }), added)];
};
