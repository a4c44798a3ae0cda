import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clean, oneLine } from '../../src/report/clean.ts';

describe('a text on one line', () => {
  it('is as safe as it can be made, without a blank too many, whatever it holds', () => {
    const odd = fc.constantFrom(' ', '  ', '\t', '\n', '\u0000', '\u009b', '\u202e', '\u00a0', 'a', '’');
    const text = fc.oneof(
      fc.array(odd).map((parts) => parts.join('')),
      fc.string({ unit: 'binary' }),
    );
    fc.assert(
      fc.property(text, (one) => {
        expect(oneLine(one)).toBe(clean(one.replace(/\s+/gu, ' ').trim()));
      }),
    );
  });

  it.each([
    ['Left  against\nright ', 'Left against right'],
    ['a\u001b[2Jb', 'a<1B>[2Jb'],
    ['Shuttle 7', 'Shuttle 7'],
    ['', ''],
  ])('%j is %j', (typed, shown) => {
    expect(oneLine(typed)).toBe(shown);
  });
});
