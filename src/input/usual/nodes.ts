import type { Entry, MapNode, Node, ScalarNode } from '../yaml/tree.ts';

/** A text that nobody wrote, at the place that it is about. */
export const textNode = (text: string, start: number, end = start): ScalarNode => ({
  kind: 'scalar',
  value: text,
  text,
  start,
  end,
});

export const entryOf = (key: string, node: Node, keyStart = node.start): Entry => ({ key, keyStart, node });

/** The same map with other entries. */
export const withEntries = (map: MapNode, entries: Iterable<Entry>): MapNode => {
  const byKey = new Map<string, Entry>();
  for (const one of entries) byKey.set(one.key, one);
  return { ...map, entries: byKey };
};

/** A map of entries that stand elsewhere in the text, or together under no key of their own. */
export const mapNode = (entries: Iterable<Entry>, start: number, end: number): MapNode =>
  withEntries({ kind: 'map', entries: new Map(), start, end, flow: false }, entries);

/** The items of a list changed one by one, without those that become null; the list itself where none changes. */
export const mapItems = (node: Node, change: (item: Node, index: number) => Node | null): Node => {
  if (node.kind !== 'list') return node;
  let changed = false;
  const items: Node[] = [];
  for (const [index, item] of node.items.entries()) {
    const next = change(item, index);
    changed ||= next !== item;
    if (next !== null) items.push(next);
  }
  return changed ? { ...node, items } : node;
};

/** The map with the value of one key changed; the map itself where it stays the same. */
export const withValue = (node: Node, key: string, change: (value: Node) => Node): Node => {
  if (node.kind !== 'map') return node;
  const entry = node.entries.get(key);
  if (entry === undefined) return node;
  const value = change(entry.node);
  if (value === entry.node) return node;
  const entries = new Map(node.entries);
  entries.set(key, { ...entry, node: value });
  return { ...node, entries };
};
