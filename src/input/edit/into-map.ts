import { type Entry, entriesOf, type MapNode } from '../yaml/tree.ts';
import { afterValue, contentEnd, takesBlanks } from './after-block.ts';
import { asLines } from './as-lines.ts';
import type { Insertion } from './insertion.ts';
import { intoFlow } from './into-flow.ts';
import { apart } from './into-list.ts';
import { startOfLine } from './line-ends.ts';
import { scalarText } from './scalar-text.ts';
import type { Pair } from './value.ts';
import { entryLines, inline } from './write-value.ts';

/** The entry behind which a key belongs: the last of those that come before it by `order`, else the last of all. */
const predecessor = (entries: readonly Entry[], key: string, order: readonly string[]): number => {
  const place = order.indexOf(key);
  const earlier = entries.findLastIndex((entry) => {
    const own = order.indexOf(entry.key);
    return own >= 0 && own < place;
  });
  return place < 0 || earlier < 0 ? entries.length - 1 : earlier;
};

/**
 * A key with its value in a map, behind the keys that come before it by `order`.
 *
 * @param quoted true in a file whose texts all stand in quotes
 */
export const intoMap = (
  text: string,
  map: MapNode,
  [key, value]: Pair,
  order: readonly string[],
  quoted: boolean,
): Insertion[] => {
  const entries = entriesOf(map);
  const index = predecessor(entries, key, order);
  const before = entries[index];
  if (map.flow) {
    const added = [`${scalarText(key, quoted)}: ${inline(value, quoted)}`];
    const last = before && { start: before.keyStart, end: Math.max(before.node.end, before.keyStart + 1) };
    return intoFlow(text, map.start + 1, last ?? null, added);
  }
  const column = map.start - startOfLine(text, map.start);
  const above = entries[index - 1];
  const isApart = before && above && apart(text, above.node, { start: before.keyStart });
  const blank = isApart && !takesBlanks(text, before.node) ? [''] : [];
  const [first = '', ...more] = entryLines(key, value, column);
  const added = [...blank, `${' '.repeat(column)}${first}`, ...more];
  const comments = index === entries.length - 1 ? column : column + 1;
  const end = before ? contentEnd(text, before.node) : map.end;
  return [asLines(text, afterValue(text, end, { comments }), added)];
};
