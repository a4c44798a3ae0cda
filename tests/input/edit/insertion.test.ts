import { describe, expect, it } from 'vitest';
import { insert } from '../../../src/input/edit/insertion.ts';
import { endOfLine, lineEnding, nextLine, startOfLine } from '../../../src/input/edit/line-ends.ts';
import { stretchesOf, takeOut } from './stretches.ts';

describe('insertions', () => {
  const made = [
    { at: 5, text: 'CC' },
    { at: 0, text: 'A' },
    { at: 3, text: 'BBB' },
  ];

  it('are made at offsets of the text as it was', () => {
    expect(insert('01234', made)).toBe('A012BBB34CC');
  });

  it('are found again in the text that came of them, and taken out', () => {
    const stretches = stretchesOf(made, '01234');
    const after = insert('01234', made);
    expect(stretches.map(({ at, length }) => after.slice(at, at + length))).toEqual(['A', 'BBB', 'CC']);
    expect(takeOut(after, stretches)).toBe('01234');
    expect(takeOut(after, [...stretches].reverse())).toBe('01234');
  });
});

describe('replacements', () => {
  const made = [
    { at: 1, text: 'BB', replaces: 1 },
    { at: 2, text: '+' },
    { at: 3, text: '', replaces: 2 },
  ];

  it('keep every other character, and are taken back', () => {
    const after = insert('01234', made);
    expect(after).toBe('0BB+2');
    const stretches = stretchesOf(made, '01234');
    expect(takeOut(after, stretches)).toBe('01234');
    expect(takeOut(after, JSON.parse(JSON.stringify(stretches)))).toBe('01234');
  });
});

describe('the ends of lines', () => {
  const mixed = 'a\r\nbc\nd';

  it('are found, with a carriage return outside of the line', () => {
    expect([0, 1, 3, 6, 7].map((at) => endOfLine(mixed, at))).toEqual([1, 1, 5, 7, 7]);
    expect([0, 1, 3, 4, 6].map((at) => startOfLine(mixed, at))).toEqual([0, 0, 3, 3, 6]);
    expect([0, 3, 6].map((at) => nextLine(mixed, at))).toEqual([3, 6, null]);
  });

  it('are those of the lines nearby', () => {
    expect(lineEnding(mixed, 1)).toBe('\r\n');
    expect(lineEnding(mixed, 3)).toBe('\r\n');
    expect(lineEnding(mixed, 6)).toBe('\n');
    expect(lineEnding('no line ends', 3)).toBe('\n');
  });
});
