import { describe, expect, it } from 'vitest';
import { fitting } from '../../../src/report/sheet/fitting.ts';

describe('as many items as fit', () => {
  it.each([
    [['one', 'two', 'three'], 40, 'one; two; three'],
    [['one', 'two', 'three'], 14, 'one; and 2 more'],
    [['one', 'two', 'three'], 3, 'one; and 2 more'],
    [['one'], 1, 'one'],
  ])('%j in %i columns', (items, width, text) => {
    expect(fitting(items, width)).toBe(text);
  });

  it('leaves no more out than it must', () => {
    expect(fitting(['one', 'two', 'three'], 21)).toBe('one; two; three');
  });
});
