import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type Change, insertionsFor } from '../../../src/input/edit/change.ts';
import { insert } from '../../../src/input/edit/insertion.ts';
import { sourceAt } from '../../../src/input/edit/set-value.ts';
import { braces, brackets, text, type Value } from '../../../src/input/edit/value.ts';
import { saysAsIntended } from '../../../src/input/edit/verify.ts';
import type { Way } from '../../../src/input/edit/way.ts';
import { readYaml } from '../../../src/input/yaml/read-yaml.ts';
import { pairs, textAfter } from './editing.ts';
import { isMap, type Plain, type PlainMap, randomJob, tapeOf } from './random-job.ts';
import { randomLayout } from './random-layout.ts';
import { stretchesOf, takeOut } from './stretches.ts';

const set = (at: Way, value: Value | string, remark = 'was so'): Change => ({
  kind: 'set',
  at,
  value: typeof value === 'string' ? text(value) : value,
  remark,
});

describe('a value in the place of another', () => {
  it.each([
    ['a: 12310 V\n', ['a'], text('12.31 V'), 'a: 12.31 V   # was so\n'],
    ['a: 12310 V', ['a'], text('12.31 V'), 'a: 12.31 V   # was so'],
    ['a: 12310 V  # by hand\n', ['a'], text('12.31 V'), 'a: 12.31 V  # by hand   # was so\n'],
    ['a: "12310 V"\nb: 1\n', ['a'], text('12.31 V'), 'a: 12.31 V   # was so\nb: 1\n'],
    ['a: {LF: 1 V, RF: 2 V}\n', ['a', 'LF'], text('3 V'), 'a: {LF: 3 V, RF: 2 V}   # was so\n'],
    ['a: {LF: 1 V,\n  RF: 2 V}\n', ['a', 'LF'], text('3 V'), 'a: {LF: 3 V,   # was so\n  RF: 2 V}\n'],
    ['a: [1 V, 2 V]\n', ['a'], text('3 V'), 'a: 3 V   # was so\n'],
    [
      'a: 1 V\r\nb: 1\r\n',
      ['a'],
      brackets([text('3 V'), text('4 V')]),
      'a: [3 V, 4 V]   # was so\r\nb: 1\r\n',
    ],
    [
      'a:\n  - 1 V\n  - 2 V\n',
      ['a', 1],
      braces(pairs({ value: '2.1 V', by: 'meter' })),
      'a:\n  - 1 V\n  - {value: 2.1 V, by: meter}   # was so\n',
    ],
    ['{"a": "1 V", "b": "2 V"}\n', ['a'], text('3 V'), '{"a": "3 V", "b": "2 V"}\n'],
  ] as const)('%j at %j', (before, at, value, after) => {
    expect(textAfter(before, set(at, value))).toBe(after);
  });

  it.each([
    ['a:\n  value: 1 V\n  by: meter # mine\n', ['a']],
    ['a: |\n  one\n  two\n', ['a']],
    ['a: "one\n  two"\n', ['a']],
    ['a:\n', ['a']],
    ['a: 1\n', ['b']],
  ] as const)('has no place in %j at %j', (before, at) => {
    expect(textAfter(before, set(at, '3 V'))).toBe('no place');
  });

  it('is refused where the remark would become part of a text', () => {
    expect(textAfter('a: {b: 1, c: "one\n  two"}\n', set(['a', 'b'], '3'))).toBe('unsafe');
  });

  it('may come with others on the same line', () => {
    const changes: Change = {
      kind: 'several',
      changes: [set(['a', 'b'], '3', 'b was 1'), set(['a', 'c'], '4', 'c was 2')],
    };
    expect(textAfter('a: {b: 1 V, c: 2 V}\n', changes)).toBe('a: {b: "3", c: "4"}   # b was 1   # c was 2\n');
  });
});

/** Every way to a text below a plain value. */
const waysTo = (plain: Plain, way: Way = []): Way[] => {
  if (typeof plain === 'string') return [way];
  if (Array.isArray(plain)) return plain.flatMap((one: Plain, index) => waysTo(one, [...way, index]));
  return isMap(plain) ? Object.entries(plain).flatMap(([key, one]) => waysTo(one, [...way, key])) : [];
};

const withText = (plain: Plain, [part, ...rest]: Way, by: string): Plain => {
  if (part === undefined) return by;
  if (Array.isArray(plain))
    return plain.map((one: Plain, index) => (index === part ? withText(one, rest, by) : one));
  const map = plain as PlainMap;
  return { ...map, [part]: withText(map[part] as Plain, rest, by) };
};

describe('a value in any layout', () => {
  it('takes the place of one and of nothing else, keeps what stood there, and can be taken back', () => {
    let made = 0;
    let tried = 0;
    fc.assert(
      fc.property(fc.uint16Array({ minLength: 400, maxLength: 700 }), (numbers) => {
        const tape = tapeOf(numbers);
        const job = randomJob(tape);
        const before = randomLayout(tape, job);
        const ways = waysTo(job.snapshots ?? [], ['snapshots']);
        if (ways.length === 0) return;
        const at = tape.of(ways);
        tried += 1;
        const { root } = readYaml(before);
        if (root === null) throw new Error('the layout cannot be read');
        const was = sourceAt(before, root, at);
        const change = set(at, '9.87 V', `this was ${was}`);
        const insertions = insertionsFor(before, root, change);
        if (insertions === null) return;
        const after = insert(before, insertions);
        const read = readYaml(after).root;
        if (read === null || !saysAsIntended(root, change, read)) return;
        made += 1;
        expect(parse(after, { version: '1.2', schema: 'core' })).toEqual(withText(job, at, '9.87 V'));
        expect(takeOut(after, stretchesOf(insertions, before))).toBe(before);
        // JSON takes no remarks.
        if (insertions.length > 1) expect(after).toContain(`# this was ${was}`);
      }),
      { numRuns: 400, seed: 20260302 },
    );
    // Only texts of several lines, and lines that such a text begins in, may be refused.
    expect(made).toBeGreaterThan(tried * 0.75);
    expect(tried).toBeGreaterThan(120);
  });
});
