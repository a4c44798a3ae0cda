import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toCompile } from '../../../src/input/schema/compiled-schemas.ts';
import { validators } from '../../../src/input/schema/generated/validators.js';
import { schemaFit } from '../../../src/input/schema/schema-fit.ts';
import { readYaml } from '../../../src/input/yaml/read-yaml.ts';
import { fromPlain, get, itemsOf, type Node, textOf, toPlain } from '../../../src/input/yaml/tree.ts';
import { projectRoot } from '../../support/run.ts';
import { type Tape, tapeOf } from '../edit/random-job.ts';
import { soundJob } from '../problems-of.ts';

const fits = new Map(Object.entries(toCompile).map(([name, schema]) => [name, schemaFit(schema)]));

/** Holds the answer on the tree to that of the compiled validator; whether the tree fits. */
const expectSame = (name: string, root: Node): boolean => {
  const fit = fits.get(name)?.(root);
  expect({ name, value: toPlain(root), fit }).toEqual({
    name,
    value: toPlain(root),
    fit: validators[name]?.(toPlain(root)),
  });
  return fit === true;
};

const rootsBelow = (folder: string): Node[] =>
  readdirSync(join(projectRoot, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => readYaml(readFileSync(join(projectRoot, folder, name), 'utf8')).root)
    .filter((root) => root !== null);

/** A tree and the schema that it is held to: its own, and that of each check in a pack. */
const held = [...rootsBelow('examples'), ...rootsBelow('rules'), ...rootsBelow('tests/reproducers')]
  .flatMap((root): [string, Node][] => {
    const checks = itemsOf(get(root, 'checks')).map((check): [string, Node] => [
      `check:${textOf(get(check, 'kind'))}`,
      check,
    ]);
    const name = get(root, 'pack') ? 'pack' : get(root, 'job') ? 'job' : 'shop';
    return [[name, root], ...checks];
  })
  .filter(([name]) => fits.has(name));
const sound = readYaml(soundJob).root as Node;

const odd: readonly unknown[] = [
  ...[
    '',
    'a',
    'x'.repeat(121),
    '\u{1f690}'.repeat(61),
    '\u{1f690}'.repeat(121),
    'x'.repeat(4001),
    'EUR',
    '1.0.0',
  ],
  ...[0, 1, -1, 0.5, 1e9, Number.NaN, Number.POSITIVE_INFINITY, true, false, null],
  ...[
    [],
    [1],
    ['a', 'b'],
    [1, 2, 3],
    {},
    { low: 1 },
    { id: 'a' },
    { 'x-own': [{}] },
    { all: [{ not: { step: 'a' } }] },
  ],
];
const oddKeys = ['x-own', 'X-own', 'xx', 'constructor', 'toString', '__proto__', 'LF', 'id', 'value'];

/** A value with one thing in it taken out, put in or put in another's place. */
const bent = (value: unknown, tape: Tape): unknown => {
  if (typeof value !== 'object' || value === null || tape.chance(15)) return tape.of(odd);
  if (Array.isArray(value)) {
    const at = tape.pick(value.length + 1);
    if (at === value.length || tape.chance(10)) return [...value, tape.of(odd)];
    return tape.chance(10) ? value.toSpliced(at, 1) : value.with(at, bent(value[at], tape));
  }
  const entries = Object.entries(value);
  const at = tape.pick(entries.length + 1);
  const [key, item] = entries[at] ?? [tape.of(oddKeys), null];
  if (tape.chance(10)) return Object.fromEntries(entries.toSpliced(at, 1));
  return Object.fromEntries([...entries.toSpliced(at, 1), [key, bent(item, tape)]]);
};

describe('whether a tree fits is said as the compiled validators say it', () => {
  it('of every file at hand', () => {
    const fitting = held.filter(([name, root]) => expectSame(name, root));
    expect(fitting.length).toBeGreaterThan(held.length / 2);
    // Each schema came up, and none of them takes everything.
    expect([...new Set(held.map(([name]) => name))].sort()).toEqual(Object.keys(toCompile).sort());
    for (const name of Object.keys(toCompile)) expect(expectSame(name, fromPlain('', 0))).toBe(false);
  });

  it('of trees with something bent in them', () => {
    let good = 0;
    let bad = 0;
    const trees = fc.oneof(fc.constant<[string, Node]>(['job', sound]), fc.constantFrom(...held));
    fc.assert(
      fc.property(trees, fc.uint16Array({ minLength: 20, maxLength: 30 }), ([name, root], numbers) => {
        const changed = bent(toPlain(root), tapeOf(numbers));
        if (expectSame(name, fromPlain(changed, 0))) good += 1;
        else bad += 1;
      }),
      { numRuns: 3000 },
    );
    expect(Math.min(good, bad)).toBeGreaterThan(300);
  });

  it('of lengths in characters, not in units', () => {
    const takes = schemaFit({ type: 'string', minLength: 2, maxLength: 3 });
    const wide = '\u{1f690}';
    expect(['', 'a', 'ab', 'abc', 'abcd'].map((text) => takes(fromPlain(text, 0)))).toEqual([
      ...[false, false, true, true, false],
    ]);
    expect([1, 2, 3, 4].map((times) => takes(fromPlain(wide.repeat(times), 0)))).toEqual([
      ...[false, true, true, false],
    ]);
  });
});

describe('a schema that asks for something not known here', () => {
  it.each([
    ['a keyword', { type: 'object', properties: { a: { oneOf: [] } } }],
    ['a pattern of keys', { type: 'object', patternProperties: { '^y-': {} } }],
  ])('is refused for %s', (_, schema) => {
    expect(() => schemaFit(schema)).toThrow();
  });
});
