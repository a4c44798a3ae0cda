import { entriesOf, type ListNode, type MapNode, type Node } from '../yaml/tree.ts';
import type { Insertion } from './insertion.ts';
import { intoList } from './into-list.ts';
import { intoMap } from './into-map.ts';
import { startOfLine } from './line-ends.ts';
import { replaceScalar } from './replace-scalar.ts';
import { setValue } from './set-value.ts';
import { block, braces, lines, type Value } from './value.ts';
import { childOf, nodeAt, type Way } from './way.ts';

/** What is to be done to a file; only what comes in the place of something else ever takes anything out of it. */
export type Change =
  /** Items at the end of a list, which is made where it is not there yet. */
  | { readonly kind: 'append'; readonly to: Way; readonly items: readonly Value[] }
  /** A key that is not there yet, with the maps above it that are not there either. */
  | { readonly kind: 'put'; readonly at: Way; readonly value: Value }
  /** Another text in the place of one that is there, in its quotes. */
  | { readonly kind: 'replace'; readonly at: Way; readonly text: string }
  /** Another value in the place of one that is there, which a comment on that line keeps where there is a remark. */
  | { readonly kind: 'set'; readonly at: Way; readonly value: Value; readonly remark: string | null }
  /** Several changes at once, none of which changes what another goes by. */
  | { readonly kind: 'several'; readonly changes: readonly Change[] };

/** The order of keys in a file written by hand: new ones go where a reader looks for them. */
const topOrder = [
  'worksheet',
  'job',
  'title',
  'opened',
  'zone',
  'status',
  'packs',
  'vehicle',
  'complaint',
  'distance',
  'instruments',
  'at',
  'state',
  'conditions',
  'readings',
  'lamp',
  'codes',
  'snapshots',
  'log',
  'costs',
  'waivers',
];

const snapshotOrder = ['id', 'at', 'state', 'conditions', 'readings', 'lamp', 'codes', 'note'];

const orderAt = (way: Way): readonly string[] => {
  if (way.length === 0) return topOrder;
  return way.length === 2 && way[0] === 'snapshots' ? snapshotOrder : [];
};

/** Readings stand a line each; what is below them, and conditions, in braces. */
const wrapped = (way: Way, depth: number, value: Value): Value => {
  let made = value;
  for (let index = way.length - 1; index > depth; index -= 1) {
    const pair = [String(way[index]), made] as const;
    made = way[index - 1] === 'readings' ? block([pair]) : braces([pair]);
  }
  return made;
};

/** The column of the key at a way, for lists that stand no deeper than their key. */
const keyColumn = (text: string, root: Node, way: Way): number => {
  let node: Node | undefined = root;
  let column = -1;
  for (const part of way) {
    if (node?.kind === 'map' && typeof part === 'string') {
      const start = node.entries.get(part)?.keyStart ?? node.start;
      column = start - startOfLine(text, start);
    }
    node = childOf(node, part);
  }
  return column;
};

/** Whether a file keeps all its texts in quotes, as JSON does. */
const isQuoted = (text: string, root: Node): boolean =>
  root.kind === 'map' && root.flow && text[entriesOf(root)[0]?.keyStart ?? 0] === '"';

interface Found {
  readonly map: MapNode;
  /** How many parts of the way lead to the map. */
  readonly depth: number;
}

/** The deepest map on a way. */
const deepest = (root: Node, way: Way): Found | null => {
  let node: Node | undefined = root;
  let found: Found | null = null;
  for (const [depth, part] of way.entries()) {
    if (node?.kind === 'map') found = { map: node, depth };
    node = childOf(node, part);
    if (node === undefined) break;
  }
  return found;
};

const put = (text: string, root: Node, way: Way, value: Value): Insertion[] | null => {
  const found = deepest(root, way);
  if (found === null) return null;
  const { map, depth } = found;
  const key = String(way[depth]);
  if (map.entries.has(key)) return null;
  const pair = [key, wrapped(way, depth, value)] as const;
  return intoMap(text, map, pair, orderAt(way.slice(0, depth)), isQuoted(text, root));
};

const listAt = (root: Node, way: Way): ListNode | null => {
  const node = nodeAt(root, way);
  return node?.kind === 'list' ? node : null;
};

const several = (text: string, root: Node, changes: readonly Change[]): Insertion[] | null => {
  const made = changes.map((change) => insertionsFor(text, root, change));
  return made.some((one) => one === null) ? null : made.flatMap((one) => one ?? []);
};

/** The insertions that make a change, or null where the file has something else in the place. */
export const insertionsFor = (text: string, root: Node, change: Change): Insertion[] | null => {
  if (change.kind === 'put') return put(text, root, change.at, change.value);
  if (change.kind === 'replace') return replaceScalar(text, root, change.at, change.text);
  if (change.kind === 'set') {
    return setValue(text, root, change.at, change.value, change.remark, isQuoted(text, root));
  }
  if (change.kind === 'several') return several(text, root, change.changes);
  const list = listAt(root, change.to);
  if (list === null) return put(text, root, change.to, lines(change.items));
  const quoted = isQuoted(text, root);
  return intoList(text, list, change.items, keyColumn(text, root, change.to), quoted);
};
