import { describe, expect, it } from 'vitest';
import { block, braces, brackets, lines, text } from '../../../src/input/edit/value.ts';
import { contentLines, entryLines, inline } from '../../../src/input/edit/write-value.ts';

const bare = (value: string) => ({ kind: 'bare', text: value }) as const;

const deep = block([
  ['id', text('key-on')],
  ['codes', lines([braces([['code', bare('0x5A21')]]), text('b')])],
  [
    'readings',
    block([
      ['supply', text('12.2 V')],
      ['position', braces([['LF', text('2.48 V')]])],
    ]),
  ],
]);

describe('a value on one line', () => {
  it('stands in brackets and braces, whatever it would like', () => {
    expect(inline(deep)).toBe(
      '{id: key-on, codes: [{code: 0x5A21}, b], readings: {supply: 12.2 V, position: {LF: 2.48 V}}}',
    );
  });

  it('keeps what is bare out of quotes where all else is in them', () => {
    expect(inline(braces([['a key', bare('12.20')]]), true)).toBe('{"a key": 12.20}');
    expect(inline(text('on'), true)).toBe('"on"');
  });

  it('has its keys in quotes where they need them', () => {
    expect(inline(braces([['12', text('a, b')]]))).toBe('{"12": "a, b"}');
  });
});

describe('a value in lines', () => {
  it('begins behind the indent that is there, and brings its own for the lines below', () => {
    expect(entryLines('x', deep, 2)).toEqual([
      'x:',
      '    id: key-on',
      '    codes:',
      '      - {code: 0x5A21}',
      '      - b',
      '    readings:',
      '      supply: 12.2 V',
      '      position: {LF: 2.48 V}',
    ]);
  });

  it('stands behind a dash', () => {
    expect(contentLines(lines([lines([text('a'), text('b')]), deep]), 4).slice(0, 5)).toEqual([
      '- - a',
      '      - b',
      '    - id: key-on',
      '      codes:',
      '        - {code: 0x5A21}',
    ]);
  });

  it.each([
    ['list', lines([]), '[]'],
    ['map', block([]), '{}'],
  ])('that is an empty %s has no line to stand in', (_, value, shown) => {
    expect(entryLines('x', value, 0)).toEqual([`x: ${shown}`]);
    expect(contentLines(value, 0)).toEqual([shown]);
  });

  it('that wants brackets has them', () => {
    expect(entryLines('x', brackets([text('a'), braces([])]), 0)).toEqual(['x: [a, {}]']);
  });
});
