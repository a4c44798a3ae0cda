import { describe, expect, it } from 'vitest';
import { keyOf, parseKey } from '../../src/core/key.ts';

describe('keys', () => {
  it.each([
    ['position.LF', 'position', 'LF'],
    ['tank', 'tank', null],
    ['sensor-ground.RR', 'sensor-ground', 'RR'],
    ['position.XX', 'position.XX', null],
    ['.LF', '.LF', null],
  ])('%s', (text, base, corner) => {
    expect(parseKey(text)).toEqual({ base, corner });
  });

  it('come back as they were', () => {
    for (const text of ['position.LF', 'tank']) {
      const { base, corner } = parseKey(text);
      expect(keyOf(base, corner)).toBe(text);
    }
  });
});
