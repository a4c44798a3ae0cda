import { entriesOf, type Node } from '../yaml/tree.ts';
import type { Change } from './change.ts';
import type { Value } from './value.ts';
import type { Way } from './way.ts';

/** What a node says, whatever its layout: the type and the text of scalars, the items, the keys. */
type Shape =
  | { readonly kind: 'scalar'; readonly type: string | null; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly Shape[] }
  | { readonly kind: 'map'; readonly entries: ReadonlyMap<string, Shape> };

const typeOf = (value: unknown): string => (value === null ? 'null' : typeof value);

export const shapeOf = (node: Node): Shape => {
  switch (node.kind) {
    case 'scalar':
      return { kind: 'scalar', type: typeOf(node.value), text: node.text };
    case 'list':
      return { kind: 'list', items: node.items.map(shapeOf) };
    case 'map':
      return {
        kind: 'map',
        entries: new Map(entriesOf(node).map(({ key, node: value }) => [key, shapeOf(value)])),
      };
  }
};

const intended = (value: Value): Shape => {
  switch (value.kind) {
    case 'text':
      return { kind: 'scalar', type: 'string', text: value.text };
    case 'bare':
      // Whether it reads as a number or as a text is the reader's business; its characters are what counts.
      return { kind: 'scalar', type: null, text: value.text };
    case 'list':
      return { kind: 'list', items: value.items.map(intended) };
    case 'map':
      return { kind: 'map', entries: new Map(value.entries.map(([key, item]) => [key, intended(item)])) };
  }
};

/** The shape with a change made at a way; what is not there yet is made. */
const withChange = (shape: Shape | undefined, way: Way, make: (old: Shape | undefined) => Shape): Shape => {
  const [part, ...rest] = way;
  if (part === undefined) return make(shape);
  if (typeof part === 'number') {
    const items = shape?.kind === 'list' ? shape.items : [];
    return {
      kind: 'list',
      items: items.map((item, index) => (index === part ? withChange(item, rest, make) : item)),
    };
  }
  const entries = new Map(shape?.kind === 'map' ? shape.entries : []);
  entries.set(part, withChange(entries.get(part), rest, make));
  return { kind: 'map', entries };
};

const expected = (before: Shape, change: Change): Shape => {
  switch (change.kind) {
    case 'put':
      return withChange(before, change.at, () => intended(change.value));
    case 'replace':
      return withChange(before, change.at, () => ({ kind: 'scalar', type: 'string', text: change.text }));
    case 'set':
      return withChange(before, change.at, () => intended(change.value));
    case 'several':
      return change.changes.reduce(expected, before);
    case 'append':
      return withChange(before, change.to, (old) => ({
        kind: 'list',
        items: [...(old?.kind === 'list' ? old.items : []), ...change.items.map(intended)],
      }));
  }
};

const same = (a: Shape, b: Shape): boolean => {
  if (a.kind === 'scalar' && b.kind === 'scalar') {
    return a.text === b.text && (a.type === null || b.type === null || a.type === b.type);
  }
  if (a.kind === 'list' && b.kind === 'list') {
    return (
      a.items.length === b.items.length && a.items.every((item, index) => same(item, b.items[index] as Shape))
    );
  }
  if (a.kind === 'map' && b.kind === 'map') {
    if (a.entries.size !== b.entries.size) return false;
    return [...a.entries].every(([key, item]) => {
      const other = b.entries.get(key);
      return other !== undefined && same(item, other);
    });
  }
  return false;
};

/** Whether a file says after a change what it said before, and the change, and nothing else. */
export const saysAsIntended = (before: Node, change: Change, after: Node): boolean =>
  same(expected(shapeOf(before), change), shapeOf(after));
