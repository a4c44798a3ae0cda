import type { Path } from '../../core/flaw.ts';

/** A parsed file as plain nodes with offsets into its text, whatever parser made them. */
export type Node = ScalarNode | ListNode | MapNode;

export interface ScalarNode {
  readonly kind: 'scalar';
  readonly value: string | number | boolean | null;
  /** As typed: digits keep their trailing zeros here. */
  readonly text: string;
  readonly start: number;
  /** Where the value ends; blanks and a comment may follow. */
  readonly end: number;
}

export interface ListNode {
  readonly kind: 'list';
  readonly items: readonly Node[];
  readonly start: number;
  readonly end: number;
  /** True where it stands in brackets. */
  readonly flow: boolean;
}

export interface Entry {
  readonly key: string;
  readonly keyStart: number;
  readonly node: Node;
}

export interface MapNode {
  readonly kind: 'map';
  readonly entries: ReadonlyMap<string, Entry>;
  readonly start: number;
  readonly end: number;
  /** True where it stands in braces. */
  readonly flow: boolean;
}

/** The value behind a key of a map, or undefined (also where the node is no map). */
export const get = (node: Node | undefined, key: string): Node | undefined =>
  node?.kind === 'map' ? node.entries.get(key)?.node : undefined;

export const entriesOf = (node: Node | undefined): Entry[] =>
  node?.kind === 'map' ? [...node.entries.values()] : [];

export const itemsOf = (node: Node | undefined): readonly Node[] => (node?.kind === 'list' ? node.items : []);

/** The text of a scalar as typed, or undefined. */
export const textOf = (node: Node | undefined): string | undefined =>
  node?.kind === 'scalar' && node.value !== null ? node.text : undefined;

export const numberOf = (node: Node | undefined): number | null =>
  node?.kind === 'scalar' && typeof node.value === 'number' && Number.isFinite(node.value)
    ? node.value
    : null;

/** The node at a path, or the nearest one above it; `key` asks for the offset of the last key itself. */
export const offsetAt = (root: Node, path: Path, key = false): number => {
  let node = root;
  let at = root.start;
  for (const [index, part] of path.entries()) {
    const last = index === path.length - 1;
    if (node.kind === 'map') {
      const entry = node.entries.get(String(part));
      if (!entry) return at;
      node = entry.node;
      at = last && key ? entry.keyStart : entry.node.start;
    } else if (node.kind === 'list') {
      const item = node.items[Number(part)];
      if (!item) return at;
      node = item;
      at = item.start;
    } else return at;
  }
  return at;
};

/** Plain values for schema validation. A `__proto__` key stays an ordinary key. */
export const toPlain = (node: Node): unknown => {
  switch (node.kind) {
    case 'scalar':
      return node.value;
    case 'list':
      return node.items.map(toPlain);
    case 'map': {
      const plain: Record<string, unknown> = {};
      for (const { key, node: value } of node.entries.values()) {
        // To assign this one key would set what the map inherits from; to define every key takes its time.
        if (key === '__proto__') {
          Object.defineProperty(plain, key, {
            value: toPlain(value),
            enumerable: true,
            configurable: true,
            writable: true,
          });
        } else plain[key] = toPlain(value);
      }
      return plain;
    }
  }
};

/** A tree without a file behind it, for values that are made up (a proof's surroundings). */
export const fromPlain = (value: unknown, start: number): Node => {
  if (Array.isArray(value))
    return {
      kind: 'list',
      items: value.map((item) => fromPlain(item, start)),
      start,
      end: start,
      flow: false,
    };
  if (typeof value === 'object' && value !== null) {
    const entries = Object.entries(value).map(
      ([key, item]) => [key, { key, keyStart: start, node: fromPlain(item, start) }] as const,
    );
    return { kind: 'map', entries: new Map(entries), start, end: start, flow: false };
  }
  const scalar = value as ScalarNode['value'];
  return { kind: 'scalar', value: scalar, text: String(scalar), start, end: start };
};
