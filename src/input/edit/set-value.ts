import type { Node } from '../yaml/tree.ts';
import { contentEnd } from './after-block.ts';
import type { Insertion } from './insertion.ts';
import { endOfLine } from './line-ends.ts';
import type { Value } from './value.ts';
import { nodeAt, type Way } from './way.ts';
import { inline } from './write-value.ts';

/** The text of a value as it stands in a file, where all of it is on one line; null where it is not there, or spreads. */
export const sourceAt = (text: string, root: Node, at: Way): string | null => {
  const node = nodeAt(root, at);
  if (node === undefined) return null;
  const source = text.slice(node.start, contentEnd(text, node));
  return source === '' || /[\n\r]/u.test(source) || /^[|>]/u.test(source) ? null : source;
};

/**
 * Another value in the place of one that stands on one line, with a remark behind that line that keeps what stood
 * there. A file that keeps its texts in quotes, as JSON does, takes no remarks.
 */
export const setValue = (
  text: string,
  root: Node,
  at: Way,
  value: Value,
  remark: string | null,
  quoted: boolean,
): Insertion[] | null => {
  const source = sourceAt(text, root, at);
  const node = nodeAt(root, at);
  if (source === null || node === undefined) return null;
  const set = { at: node.start, text: inline(value, quoted), replaces: source.length };
  return quoted || remark === null
    ? [set]
    : [set, { at: endOfLine(text, node.start), text: `   # ${remark}` }];
};
