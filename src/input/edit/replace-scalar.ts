import type { Node } from '../yaml/tree.ts';
import type { Insertion } from './insertion.ts';
import { scalarText } from './scalar-text.ts';
import { nodeAt, type Way } from './way.ts';

/** The new text as the old one is quoted. */
const inMannerOf = (source: string, text: string): string => {
  if (source.startsWith("'") && /^[\x20-\x7e]*$/u.test(text)) return `'${text.replaceAll("'", "''")}'`;
  return scalarText(text, source.startsWith('"'));
};

/** Another text in the place of a scalar on one line; null where there is none, or one that spreads over lines. */
export const replaceScalar = (text: string, root: Node, at: Way, by: string): Insertion[] | null => {
  const node = nodeAt(root, at);
  if (node?.kind !== 'scalar') return null;
  const source = text.slice(node.start, node.end);
  if (source === '' || /[\n\r]/u.test(source) || /^[|>]/u.test(source)) return null;
  return [{ at: node.start, text: inMannerOf(source, by), replaces: source.length }];
};
