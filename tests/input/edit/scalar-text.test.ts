import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { scalarText } from '../../../src/input/edit/scalar-text.ts';
import { readYaml } from '../../../src/input/yaml/read-yaml.ts';
import { entriesOf, get, itemsOf, type Node } from '../../../src/input/yaml/tree.ts';

const root = (yaml: string): Node => {
  const read = readYaml(yaml).root;
  if (read === null) throw new Error(`cannot be read: ${yaml}`);
  return read;
};

const valueAt = (node: Node | undefined): unknown => (node?.kind === 'scalar' ? node.value : node?.kind);

/** What a text comes back as from everywhere that the program writes one. */
const readBack = (value: string, quoted: boolean): Record<string, unknown> => {
  const scalar = scalarText(value, quoted);
  const block = root(`a: ${scalar}\nb: 1\n`);
  const list = root(`a:\n  - ${scalar}\n  - b\n`);
  const flow = root(`{a: ${scalar}, b: [${scalar}, ${scalar}], c: {d: ${scalar}}}`);
  return {
    block: valueAt(get(block, 'a')),
    behind: valueAt(get(block, 'b')),
    item: valueAt(itemsOf(get(list, 'a'))[0]),
    braces: valueAt(get(flow, 'a')),
    brackets: itemsOf(get(flow, 'b')).map(valueAt),
    inner: valueAt(get(get(flow, 'c'), 'd')),
  };
};

const everywhere = (value: string): Record<string, unknown> => ({
  block: value,
  behind: 1,
  item: value,
  braces: value,
  brackets: [value, value],
  inner: value,
});

/** Pieces that mean something to YAML, so that random texts are full of traps. */
const traps = fc
  .array(
    fc.constantFrom(
      ...[': ', ':', ' #', '#', '- ', '-', '? ', '&', '*', '!', '|', '>', '%', '@', '`', '"', "'", '\\'],
      ...['[', ']', '{', '}', ',', ', ', '\n', '\n\n', '\t', ' ', '---', '...', '\r\n', '<<', '='],
      ...['null', 'true', 'No', '~', '0x1F', '0o17', '12', '1e3', '.5', '-.inf', '.nan', '1_000', '12:30'],
      ...['LF', 'ключ', '表', '🚐', 'e\u0301', '\u0085', '\u2028', '\ufeff', '\u00a0', '°', '½'],
    ),
    { maxLength: 6 },
  )
  .map((parts) => parts.join(''));

describe('a text as a scalar', () => {
  it.each([
    ['pieces of YAML', traps, 1200],
    ['any characters', fc.string({ unit: 'binary', maxLength: 40 }), 500],
    [
      'half characters',
      fc.string({ unit: fc.integer({ min: 0, max: 0xffff }).map((code) => String.fromCharCode(code)) }),
      300,
    ],
  ])('of %s reads back as it was, in lines and in brackets', (_, texts, numRuns) => {
    fc.assert(
      fc.property(texts, fc.boolean(), (value, quoted) => {
        expect(readBack(value, quoted)).toEqual(everywhere(value));
      }),
      { numRuns, seed: 11 },
    );
  });

  it('reads back as a key, too, in lines and in braces', () => {
    fc.assert(
      fc.property(
        traps.filter((key) => key !== ''),
        fc.boolean(),
        (key, quoted) => {
          const scalar = scalarText(key, quoted);
          for (const yaml of [`${scalar}: 1\n`, `{${scalar}: 1}`, `{b: {${scalar}: 1}}`]) {
            const top = root(yaml);
            const map = get(top, 'b') ?? top;
            expect(entriesOf(map).map((entry) => [entry.key, valueAt(entry.node)])).toEqual([[key, 1]]);
          }
        },
      ),
      { numRuns: 600, seed: 12 },
    );
  });

  it('stays on its line', () => {
    fc.assert(
      fc.property(traps, (value) => {
        expect(scalarText(value)).not.toMatch(/[\n\r\u0085\u2028\u2029]/u);
      }),
      { numRuns: 300, seed: 13 },
    );
  });

  // What people type most must not become ugly.
  it.each([
    '2.48 V',
    '8 °C',
    'key-on',
    'sensor.LR',
    '2026-03-02T08:40',
    'C1A40-54',
    'part numbers matched',
    'Türsteuergerät',
    '12 kΩ',
    'a:b',
    '5 % + 0.02 V',
    'who knows?',
  ])('%s needs no quotes', (value) => {
    expect(scalarText(value)).toBe(value);
  });

  it.each([
    '',
    ' a',
    'a ',
    'null',
    'True',
    '12',
    '-1.5',
    '1e3',
    '0x1F',
    '~',
    'a: b',
    'a:',
    'a #b',
    '- a',
    'a, b',
    '"a"',
  ])('%j is put in quotes', (value) => {
    expect(scalarText(value)).toBe(JSON.stringify(value));
  });

  it('is in quotes where all of a file is', () => {
    expect(scalarText('key-on', true)).toBe('"key-on"');
  });

  it('shows what cannot be seen by its number', () => {
    expect(scalarText('\ufeffa\u0085b\u2028')).toBe('"\\ufeffa\\u0085b\\u2028"');
  });
});
