import type { Node } from '../yaml/tree.ts';
import type { Change } from './change.ts';
import type { Value } from './value.ts';
import type { Way } from './way.ts';

/** What a file is to say: what it says already, or what a change makes of it. */
type Said =
  | Node
  | { readonly kind: 'text'; readonly text: string; readonly isString: boolean }
  | { readonly kind: 'items'; readonly items: readonly Said[] }
  | { readonly kind: 'keys'; readonly entries: ReadonlyMap<string, Said> };

const intended = (value: Value): Said => {
  switch (value.kind) {
    case 'text':
      return { kind: 'text', text: value.text, isString: true };
    case 'bare':
      // Whether it reads as a number or as a text is the reader's business; its characters are what counts.
      return { kind: 'text', text: value.text, isString: false };
    case 'list':
      return { kind: 'items', items: value.items.map(intended) };
    case 'map':
      return { kind: 'keys', entries: new Map(value.entries.map(([key, item]) => [key, intended(item)])) };
  }
};

const itemsIn = (said: Said | undefined): readonly Said[] =>
  said?.kind === 'list' || said?.kind === 'items' ? said.items : [];

const entriesIn = (said: Said | undefined): Map<string, Said> => {
  if (said?.kind === 'keys') return new Map(said.entries);
  const entries = new Map<string, Said>();
  if (said?.kind === 'map') for (const { key, node } of said.entries.values()) entries.set(key, node);
  return entries;
};

/** The same with a change made at a way; what is not there yet is made. */
const withChange = (said: Said | undefined, way: Way, make: (old: Said | undefined) => Said): Said => {
  const [part, ...rest] = way;
  if (part === undefined) return make(said);
  if (typeof part === 'number') {
    const items = itemsIn(said).map((item, index) => (index === part ? withChange(item, rest, make) : item));
    return { kind: 'items', items };
  }
  const entries = entriesIn(said);
  entries.set(part, withChange(entries.get(part), rest, make));
  return { kind: 'keys', entries };
};

const expected = (before: Said, change: Change): Said => {
  switch (change.kind) {
    case 'put':
    case 'set':
      return withChange(before, change.at, () => intended(change.value));
    case 'replace':
      return withChange(before, change.at, () => ({ kind: 'text', text: change.text, isString: true }));
    case 'several':
      return change.changes.reduce(expected, before);
    case 'append':
      return withChange(before, change.to, (old) => ({
        kind: 'items',
        items: [...itemsIn(old), ...change.items.map(intended)],
      }));
  }
};

const typeOf = (value: unknown): string => (value === null ? 'null' : typeof value);

/** Whether a node says what is wanted, whatever its layout: the type and the text of scalars, the items, the keys. */
const says = (wanted: Said, node: Node): boolean => {
  switch (wanted.kind) {
    case 'scalar':
      return (
        node.kind === 'scalar' && node.text === wanted.text && typeOf(node.value) === typeOf(wanted.value)
      );
    case 'text':
      return (
        node.kind === 'scalar' &&
        node.text === wanted.text &&
        (!wanted.isString || typeof node.value === 'string')
      );
    case 'list':
    case 'items':
      return (
        node.kind === 'list' &&
        node.items.length === wanted.items.length &&
        wanted.items.every((item, index) => says(item, node.items[index] as Node))
      );
    case 'map':
    case 'keys':
      return node.kind === 'map' && node.entries.size === wanted.entries.size && keysSay(wanted, node);
  }
};

const keysSay = (
  wanted: Extract<Said, { readonly kind: 'map' | 'keys' }>,
  node: Extract<Node, { readonly kind: 'map' }>,
): boolean => {
  for (const [key, one] of wanted.entries) {
    const other = node.entries.get(key);
    const said: Said = 'keyStart' in one ? one.node : one;
    if (other === undefined || !says(said, other.node)) return false;
  }
  return true;
};

/** Whether a file says after a change what it said before, and the change, and nothing else. */
export const saysAsIntended = (before: Node, change: Change, after: Node): boolean =>
  says(expected(before, change), after);
