import { type Change, insertionsFor } from '../../../src/input/edit/change.ts';
import { insert } from '../../../src/input/edit/insertion.ts';
import { braces, type Pair, text, type Value } from '../../../src/input/edit/value.ts';
import { saysAsIntended } from '../../../src/input/edit/verify.ts';
import type { Way } from '../../../src/input/edit/way.ts';
import { readYaml } from '../../../src/input/yaml/read-yaml.ts';

/** The text after a change; `no place` where there is none for it, `unsafe` where it would say something else. */
export const textAfter = (before: string, change: Change): string => {
  const { root } = readYaml(before);
  if (root === null) throw new Error(`the test's own text cannot be read:\n${before}`);
  const insertions = insertionsFor(before, root, change);
  if (insertions === null) return 'no place';
  const made = insert(before, insertions);
  const read = readYaml(made).root;
  return read !== null && saysAsIntended(root, change, read) ? made : 'unsafe';
};

export const append = (to: Way, ...items: Value[]): Change => ({ kind: 'append', to, items });

export const put = (at: Way, value: Value | string): Change => ({
  kind: 'put',
  at,
  value: typeof value === 'string' ? text(value) : value,
});

/** Keys and texts as pairs. */
export const pairs = (of: Readonly<Record<string, string>>): Pair[] =>
  Object.entries(of).map(([key, value]) => [key, text(value)]);

/** A log entry that is short enough for a test to show it whole. */
export const entry: Value = braces(pairs({ at: '2026-03-02T11:00', did: 'noted' }));
export const shownEntry = '{at: 2026-03-02T11:00, did: noted}';
