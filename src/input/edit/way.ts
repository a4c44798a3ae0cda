import { get, type Node } from '../yaml/tree.ts';

/** Where something is to stand: keys, and positions in lists, from the top of the file. */
export type Way = readonly (string | number)[];

/** What stands behind one part of a way. */
export const childOf = (node: Node | undefined, part: string | number): Node | undefined => {
  if (typeof part === 'string') return get(node, part);
  return node?.kind === 'list' ? node.items[part] : undefined;
};

/** What stands at the end of a way. */
export const nodeAt = (root: Node, way: Way): Node | undefined => {
  let node: Node | undefined = root;
  for (const part of way) node = childOf(node, part);
  return node;
};
