import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fastTree } from '../../../../src/input/yaml/fast/fast-tree.ts';
import { randomJob, tapeOf } from '../../edit/random-job.ts';
import { randomLayout } from '../../edit/random-layout.ts';
import { soundJob } from '../../problems-of.ts';
import { mutated, ordinaryText, wildText } from './random-yaml.ts';
import { expectSame } from './same.ts';
import suite from './yaml-test-suite.json' with { type: 'json' };

const rules = readdirSync('rules', { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => `rules/${name}`);
const files = ['examples', 'examples/mistakes', 'tests/reproducers', ...rules].flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.yaml'))
    .map((name): [string, string] => [`${folder}/${name}`, readFileSync(`${folder}/${name}`, 'utf8')]),
);
const tapes = fc.uint16Array({ minLength: 400, maxLength: 700 });

describe('the fast reader gives the tree of the reference parser, or nothing', () => {
  it.each(files)('for %s', (_, text) => {
    expectSame(text);
    expectSame(text.replaceAll('\n', '\r\n'));
    expectSame(text.trimEnd());
    expect(expectSame(`\ufeff${text}`)).toBe(false);
  });

  it.each(suite.inputs as [string, string][])('for %s of the YAML test suite', (_, text) => {
    expectSame(text);
    expectSame(`key:\n${text.replaceAll(/^(?=.)/gmu, '  ')}`);
  });

  it('for jobs in any layout, a key of theirs at a time', () => {
    let read = 0;
    fc.assert(
      fc.property(tapes, (numbers) => {
        const tape = tapeOf(numbers);
        const text = randomLayout(tape, randomJob(tape));
        expectSame(text);
        for (const part of text.split(/^(?=\w)/mu)) if (expectSame(part)) read += 1;
      }),
      { numRuns: 150 },
    );
    expect(read).toBeGreaterThan(80);
  });

  it('for ordinary files, all of which it reads', () => {
    fc.assert(
      fc.property(ordinaryText, (text) => {
        expect(expectSame(text)).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  it('for lines in any order', () => {
    let read = 0;
    fc.assert(
      fc.property(wildText, (text) => {
        if (expectSame(text)) read += 1;
      }),
      { numRuns: 10_000 },
    );
    expect(read).toBeGreaterThan(50);
  });

  it('for good files with mistakes made in them', () => {
    let read = 0;
    const good = [soundJob, ...files.map(([, text]) => text)].filter((text) => fastTree(text) !== null);
    fc.assert(
      fc.property(
        fc.constantFrom(...good),
        fc.uint16Array({ minLength: 12, maxLength: 16 }),
        (text, tape) => {
          if (expectSame(mutated(text, tapeOf(tape)))) read += 1;
        },
      ),
      { numRuns: 1500 },
    );
    expect(read).toBeGreaterThan(150);
  });
});

describe('the fast reader reads', () => {
  it.each([
    ['maps, lists and brackets', 'a:\n  b: [c, {d: 1}]\n  e:\n  - f: 1\n    g: h\n  - i\nj: 2.48 V # why\n'],
    ['quotes', "a: \"b: c\"\n'd': 'it''s'\n"],
    ['comments and blank lines', '# a\n\nb:\n  c: 1\n\n  # d\n# e\nf: 2\n\n# g'],
    ['brackets over several lines', 'a: {b: 1,\n  c: [\n   d, e]}\n'],
    ['Windows line ends', 'a: 1\r\nb:\r\n  - c\r\n'],
    ['the bytes of codes', 'codes: [{code: 0x5A21, status: 0x28}]\n'],
    ['brackets below their key', 'a:\n  {b: 1,\n   c: 2}\nd:\n# e\n  [f] # g\n'],
    [
      'texts in blocks',
      'a: >-\n  b\n\n\n  c: d # e\nf:\n  - |\n   g\n   - h\n  - i: > # j\n     k\n\nl: |-\n m',
    ],
    ['an ordinary job', soundJob],
  ])('%s', (_, text) => {
    expect(expectSame(text)).toBe(true);
  });

  it.each([
    ['an anchor', 'a: &b 1\n'],
    ['an alias', 'a: *b\n'],
    ['a tag', 'a: !b 1\n'],
    ['a directive', '%YAML 1.2\n---\na: 1\n'],
    ['a document marker', '---\na: 1\n'],
    ['a second document', 'a: 1\n---\nb: 2\n'],
    ['a text in a block that keeps its end', 'a: |+\n  b\n\n'],
    ['a text in a block with an indent given', 'a: |1\n  b\n'],
    ['a text in a block with lines further in', 'a: >\n  b\n   c\n'],
    ['a text in a block with a line of blanks', 'a: >\n  b\n  \n  c\n'],
    ['a text in a block that begins with an empty line', 'a: >\n\n  b\n'],
    ['a text in a block without a line', 'a: >\nb: c\n'],
    ['a text over two lines', 'a: b\n  c\n'],
    ['a key that comes twice', 'a: 1\na: 2\n'],
    ['a key without a value', 'a:\nb: 1\n'],
    ['a tab', 'a:\t1\n'],
    ['a character that cannot be seen', 'a: b\u200bc\n'],
    ['a number that is not plain', 'a: 012\n'],
    ['what may be a decimal comma', 'a: [2,48 V]\n'],
    ['an escape', 'a: "\\u00b5"\n'],
    ['a list alone', '- a\n'],
    ['nothing', ''],
    ['a comment alone', '# a\n'],
    ['great depth', `a: ${'['.repeat(40)}${']'.repeat(40)}\n`],
  ])('not %s', (_, text) => {
    expect(fastTree(text)).toBeNull();
  });
});
