import { describe, expect, it } from 'vitest';
import { keyOf, keysOf, parseKey } from '../../src/core/key.ts';

describe('keys', () => {
  it.each([
    ['position.LF', 'position', 'LF', null],
    ['tank', 'tank', null, null],
    ['sensor-ground.RR', 'sensor-ground', 'RR', null],
    ['position.XX', 'position.XX', null, null],
    ['.LF', '.LF', null, null],
    ['sensor-ground.front', 'sensor-ground', null, 'front'],
    ['sensor-plugs.rear', 'sensor-plugs', null, 'rear'],
    ['sensor-plugs.left', 'sensor-plugs.left', null, null],
    ['upfront', 'upfront', null, null],
    ['.rear', '.rear', null, null],
    ['.front', '.front', null, null],
  ])('%s', (text, base, corner, axle) => {
    expect(parseKey(text)).toEqual({ base, corner, axle });
  });

  it('come back as they were', () => {
    for (const text of ['position.LF', 'tank', 'sensor-ground.rear']) {
      const { base, corner, axle } = parseKey(text);
      expect(keyOf(base, corner ?? axle)).toBe(text);
    }
  });

  it('are as many as what they name exists', () => {
    expect(keysOf('sensor', 'corner')).toEqual(['sensor.LF', 'sensor.RF', 'sensor.LR', 'sensor.RR']);
    expect(keysOf('plugs', 'axle')).toEqual(['plugs.front', 'plugs.rear']);
    expect(keysOf('ground', 'both')).toEqual(['ground', 'ground.front', 'ground.rear']);
    expect(keysOf('tank', 'vehicle')).toEqual(['tank']);
  });
});
