/** A value to be written into a file: a scalar with its text, a list, or keys in the order in which they are to stand. */
export type Value =
  | { readonly kind: 'text'; readonly text: string }
  /** A number or a code that must not be quoted, with the digits as typed. */
  | { readonly kind: 'bare'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly Value[]; readonly style: 'block' | 'flow' }
  | { readonly kind: 'map'; readonly entries: readonly Pair[]; readonly style: 'block' | 'flow' };

export type Pair = readonly [key: string, value: Value];

export const text = (value: string): Value => ({ kind: 'text', text: value });

/** Keys on lines of their own, unless it comes to stand in brackets. */
export const block = (entries: readonly Pair[]): Value => ({ kind: 'map', entries, style: 'block' });

/** Keys in braces on one line. */
export const braces = (entries: readonly Pair[]): Value => ({ kind: 'map', entries, style: 'flow' });

/** One item a line, unless it comes to stand in brackets. */
export const lines = (items: readonly Value[]): Value => ({ kind: 'list', items, style: 'block' });

/** Items in brackets on one line. */
export const brackets = (items: readonly Value[]): Value => ({ kind: 'list', items, style: 'flow' });
