import type { Gap, PlacedGap } from '../../core/proofs/gaps.ts';
import { suggest } from '../suggest.ts';
import { linesOf } from '../yaml/lines.ts';
import { type Node, offsetAt } from '../yaml/tree.ts';

/** The node at a path, or undefined. */
const nodeAt = (root: Node, path: Gap['path']): Node | undefined => {
  let node: Node | undefined = root;
  for (const part of path) {
    if (node?.kind === 'map') node = node.entries.get(String(part))?.node;
    else if (node?.kind === 'list') node = node.items[Number(part)];
    else return undefined;
  }
  return node;
};

/** Where a word first stands below a node. */
const wordBelow = (node: Node | undefined, word: string): number | undefined => {
  if (node?.kind === 'scalar') return node.text === word ? node.start : undefined;
  const below = node?.kind === 'map' ? [...node.entries.values()].map((entry) => entry.node) : node?.items;
  for (const one of below ?? []) {
    const at = wordBelow(one, word);
    if (at !== undefined) return at;
  }
  return undefined;
};

/** Finds the line of each gap in the text of its pack, and puts them in the order of the text. */
export const placeGaps = (text: string, root: Node, gaps: readonly Gap[]): PlacedGap[] => {
  const { lineOf } = linesOf(text);
  return gaps
    .map((gap) => {
      const own = offsetAt(root, gap.path);
      const at = gap.kind === 'unknown-name' ? (wordBelow(nodeAt(root, gap.path), gap.name) ?? own) : own;
      const meant = gap.kind === 'unknown-name' ? suggest(gap.name, gap.known) : null;
      return { gap, line: lineOf(at), meant };
    })
    .sort((a, b) => a.line - b.line);
};
