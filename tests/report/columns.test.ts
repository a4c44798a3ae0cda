import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cell, cut, displayWidth, fold } from '../../src/report/columns.ts';

const text = fc.string({ unit: 'grapheme', maxLength: 80 }).map((one) => one.replace(/\s+/gu, ' '));

describe('the width of a text on a terminal', () => {
  it.each([
    ['Shuttle 7', 9],
    ['−15 °C', 6],
    ['Ärger', 5],
    ['空気ばね', 8],
    ['ｘ', 2],
    ['각', 2],
    ['e\u0301', 1],
    ['🔧', 2],
    ['', 0],
  ])('%s takes %i', (one, width) => {
    expect(displayWidth(one)).toBe(width);
  });

  it('is never more than a cell has, and just that of a cell', () => {
    fc.assert(
      fc.property(text, fc.integer({ min: 3, max: 40 }), fc.boolean(), (one, width, right) => {
        expect(displayWidth(cut(one, width, '…'))).toBeLessThanOrEqual(width);
        expect(displayWidth(cell(one, width, '…', right))).toBe(width);
      }),
    );
  });

  it('cuts between characters, and marks it', () => {
    expect(cut('空気ばね', 6, '…')).toBe('空気…');
    expect(cut('Left against right', 9, '...')).toBe('Left a...');
    expect(cut('Left', 4, '…')).toBe('Left');
  });
});

describe('folding', () => {
  it('keeps every line within its width and loses no character', () => {
    fc.assert(
      fc.property(text, fc.integer({ min: 12, max: 60 }), (one, width) => {
        const lines = fold(one, width, 2, 4);
        for (const line of lines) expect(displayWidth(line)).toBeLessThanOrEqual(width);
        expect(lines.join('').replaceAll(' ', '')).toBe(one.replaceAll(' ', ''));
      }),
    );
  });

  it('breaks between words where it can, and within one that is longer than a line', () => {
    expect(fold('one two three', 9, 0, 2)).toEqual(['one two', '  three']);
    expect(fold('abcdefghij k', 6)).toEqual(['abcdef', 'ghij k']);
  });
});
