import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { titleOf } from '../../../src/input/job/title-of.ts';

describe('a title from a complaint', () => {
  it.each([
    ['Sits low at the left rear. Since Monday.', 'Sits low at the left rear'],
    ['Does it lean? Yes.', 'Does it lean'],
    ['Reads 2.5 V at rest, always', 'Reads 2.5 V at rest, always'],
    ['Help!!', 'Help'],
    ['...', '...'],
    ['?', '?'],
    [`${'word '.repeat(30)}end`, `${'word '.repeat(15).trim()}…`],
  ])('%j is %j', (complaint, title) => {
    expect(titleOf(complaint)).toBe(title);
  });

  it('is never longer than a line, and never half a character', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 200 }), (complaint) => {
        const title = titleOf(complaint);
        expect([...title].length).toBeLessThanOrEqual(80);
        expect(title).not.toBe('');
        expect(title).toBe(new TextDecoder().decode(new TextEncoder().encode(title)));
      }),
    );
  });
});
