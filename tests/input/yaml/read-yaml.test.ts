import { describe, expect, it } from 'vitest';
import { locate } from '../../../src/input/problem.ts';
import { readYaml } from '../../../src/input/yaml/read-yaml.ts';
import { textOf } from '../../../src/input/yaml/tree.ts';

const faults = (text: string): string[] =>
  locate(text, readYaml(text).flaws).map(
    ({ line, column, code, message }) => `${line}:${column} ${code} ${message}`,
  );

describe('YAML that is broken', () => {
  it.each([
    ['a: [1, 2\nb: 3', '1:4 yaml-syntax a bracket is not closed before the next line begins'],
    ['a: {b: {c: 1}', '1:4 yaml-syntax a bracket is not closed before the next line begins'],
    ['[', '1:1 yaml-syntax a bracket is not closed'],
    ['a: ]', '1:4 yaml-syntax a bracket is closed that was not opened'],
    ['a: "x\n  y\n  z', '1:4 yaml-syntax a quote is not closed'],
    ["a: 'it's low", '1:8 yaml-syntax this cannot follow the value before it'],
    ['title: Rear: low', '1:8 yaml-syntax there is a second colon on this line'],
    ['a: x\n  b: 2', '1:4 yaml-syntax this has a value and further lines below it'],
    ['a:\n  b: 1\n c: 2', '3:2 yaml-syntax this line does not line up with those around it'],
    ['a: 1\nb', '2:1 yaml-syntax a colon is missing after this'],
    ['a:\n  b:c\n  d: e', '2:3 yaml-syntax there is no key with a colon on this line'],
    ['a: {b: 1 c: 2}', '1:8 yaml-syntax a comma or a bracket is missing here'],
    ['a: [1,,2]', '1:7 yaml-syntax a comma has nothing before it'],
    ['a: - b', '1:4 yaml-syntax a list cannot begin on the line of its key'],
    ['a: @x', '1:4 yaml-syntax a text cannot begin with this character'],
    ['a: | text\n', '1:6 yaml-syntax there is text right after the | or >'],
    ['s:\n  - a: 1\n   b: 2', '3:4 yaml-syntax a dash is missing at the start of this line'],
  ])('%j', (text, expected) => {
    expect(faults(text)[0]).toBe(expected);
    expect(readYaml(text).root).toBeNull();
  });

  it('is told once a line, on as many lines as it is wrong', () => {
    expect(faults('a: [1,,2,,3]\nb: @x\nc: - d')).toHaveLength(3);
  });
});

describe('YAML that says more than a job needs', () => {
  it.each([
    ['\ta: 1', '1:1 yaml-syntax a tab is used to indent this line'],
    ['a: "x"#c', '1:7 yaml-syntax a comment begins right after a value'],
    [
      'a: "\\q"',
      '1:5 yaml-syntax a backslash in double quotes stands before a character that it does not change',
    ],
    ['a: 1\n---\nb: 2\n---\nc: 3', '2:1 several-documents a second document begins here'],
    ['a: 1\n...\nb: 2', '3:1 several-documents a second document begins here'],
    ['%YAML 1.1\n---\na: 1', '1:1 yaml-syntax lines that begin with % are not allowed'],
    ['a: !x b', '1:4 tag tags (!) are not allowed'],
    ['a: !!str 12', '1:4 tag tags (!) are not allowed'],
    ['a: !', '1:4 tag tags (!) are not allowed'],
    ['a: !!map {b: 1}', '1:4 tag tags (!) are not allowed'],
    ['a: &x 1', '1:4 anchor-or-alias anchors and aliases (& and *) are not allowed'],
    ['a: *x', '1:4 anchor-or-alias anchors and aliases (& and *) are not allowed'],
    ['*x : 1', '1:1 anchor-or-alias anchors and aliases (& and *) are not allowed'],
    ['&x a: 1', '1:1 anchor-or-alias anchors and aliases (& and *) are not allowed'],
    ['a: 1\n<<: *x', '2:5 anchor-or-alias anchors and aliases (& and *) are not allowed'],
    ['? [a, b]\n: c', '1:3 wrong-type a key must be a plain word'],
    ['? {a: b}\n: c', '1:3 wrong-type a key must be a plain word'],
    [': c', '1:1 wrong-type there is no key before this colon'],
    ['a: 1\na: 2', '2:1 duplicate-key "a" is set a second time'],
    ['"a": 1\na: 2', '2:1 duplicate-key "a" is set a second time'],
  ])('%j is one fault, and the rest is read', (text, expected) => {
    const { root } = readYaml(text);
    expect(faults(text)).toEqual([expected]);
    expect(root?.kind).toBe('map');
  });

  it.each([
    ['---\n', '1:1 file-empty there is nothing in this file'],
    ['---\n---\n', '2:1 several-documents a second document begins here'],
    ['hello', '1:1 wrong-type this file is a text, and lines of key: value are wanted'],
    ['- a', '1:1 wrong-type this file is a list, and lines of key: value are wanted'],
    ['a: 1\rb: 2', '1:5 control-character there is a lone carriage return here'],
  ])('%j is no file of keys', (text, expected) => {
    expect(faults(text)).toEqual([expected]);
    expect(readYaml(text).root).toBeNull();
  });
});

describe('characters that cannot be seen', () => {
  it.each([
    ['a: x\u202ey', '1:5', 'U+202E'],
    ['a: "x\\u202ey"', '1:4', 'U+202E'],
    ['a: "x\\u0007"', '1:4', 'U+0007'],
    ['a: x\u009by', '1:5', 'U+009B'],
    ['a: x\u200by', '1:5', 'U+200B'],
    ['a: "\\ud800"', '1:4', 'U+D800'],
    ['"x-\u001b[31m": 1', '1:4', 'U+001B'],
    ['a: x\ufeffy', '1:5', 'U+FEFF'],
  ])('%j', (text, place, name) => {
    expect(faults(text)).toEqual([
      `${place} control-character this text holds the invisible character ${name}`,
    ]);
  });

  it('leaves letters of any script, tabs and lines of a note alone', () => {
    expect(faults('a: "zu\\u0308 ñ 車 \\t x"\nb: |\n  one\n  two\nc: 👩‍🔧\n')).toEqual([]);
  });

  it('does not mind them in comments, which nobody prints', () => {
    expect(faults('a: 1 # \u202e')).toEqual([]);
  });
});

describe('keys with a meaning in the language of the program', () => {
  it.each(['__proto__', 'constructor', 'toString', 'hasOwnProperty'])('%s is a key like any other', (key) => {
    const { root } = readYaml(`${key}: 1\n`);
    expect(root?.kind === 'map' && [...root.entries.keys()]).toEqual([key]);
    expect(faults(`${key}: 1\n${key}: 2\n`)).toEqual([`2:1 duplicate-key "${key}" is set a second time`]);
  });
});

describe('size', () => {
  const blank = '\n'.repeat(100_000);
  it.each([
    ['blank lines before', `${blank}a: 1`],
    ['blank lines between', `a: 1${blank}b: 2`],
    ['blank lines with Windows ends', `a: 1\r\n${'\r\n'.repeat(100_000)}b: 2`],
    ['blank lines in a list', `a:\n  - 1${blank}  - 2`],
    ['blank lines in brackets', `a: [1,${blank}  2]`],
    ['comments before', `${'# c\n'.repeat(100_000)}a: 1`],
    ['comments between', `a: 1\n${'  # c\n'.repeat(100_000)}b: 2`],
    ['comments after', `a: 1\n${'# c\n'.repeat(100_000)}`],
    ['a note of many lines', `a: |\n${'  x\n'.repeat(100_000)}`],
    ['a list of many items', `a:\n${'  - 1\n'.repeat(24_000)}`],
  ])('%s are read', (_, text) => {
    expect(readYaml(text).flaws).toEqual([]);
  });

  it('six thousand keys are read, and as many duplicates told with the line of the first', () => {
    const keys = Array.from({ length: 6000 }, (_, index) => `k${index}: 1`).join('\n');
    expect(readYaml(keys).flaws).toEqual([]);
    const { flaws } = readYaml(`${keys}\n${keys}`);
    expect(flaws).toHaveLength(6000);
    expect(flaws.at(-1)?.hint).toContain('line 6000;');
  });

  it.each([']', '}', ',', '&a ', '*a ', '!a ', 'a: [\n', '"', '- &a ', ': - ', '%\n', '---\n', '"a" b\n'])(
    '%j over and over is refused',
    (unit) => {
      const { flaws } = readYaml(unit.repeat(20_000));
      expect(flaws.length).toBeGreaterThan(0);
    },
  );
});

describe('line ends', () => {
  it('Windows line ends change nothing', () => {
    const { root, flaws } = readYaml('a: 1\r\nb: x y\r\n');
    expect(flaws).toEqual([]);
    expect(root?.kind === 'map' && textOf(root.entries.get('b')?.node)).toBe('x y');
  });
});
