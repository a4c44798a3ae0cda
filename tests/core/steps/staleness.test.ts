import { describe, expect, it } from 'vitest';
import type { LogEntry, Verb } from '../../../src/core/job.ts';
import type { Channel } from '../../../src/core/pack.ts';
import { disturbs, isWork, staleSince } from '../../../src/core/steps/staleness.ts';

const channel = (id: string, per: Channel['per'], depends: readonly string[]): Channel => ({
  id,
  per,
  title: id,
  unit: 'V',
  by: 'meter',
  depends,
  accuracy: null,
  unjudged: null,
  possible: null,
  minutes: 1,
  cautions: [],
});
const position = channel('position', 'corner', ['control-module', 'sensor']);
const tank = channel('tank', 'vehicle', ['compressor', 'air-spring']);
const channels = new Map([position, tank].map((one) => [one.id, one]));

const entry = (at: number, did: Verb, what: string | null, order = 0): LogEntry => ({
  stamp: { at, resolution: 1 },
  order,
  did,
  what,
  failed: false,
  found: null,
  waitsFor: null,
  note: null,
  closing: null,
  to: null,
  by: null,
  reason: null,
  despite: null,
});

describe('disturbs', () => {
  it.each([
    ['sensor.LF', 'position.LF', position, true],
    ['sensor.LF', 'position.RF', position, false],
    ['control-module', 'position.RF', position, true],
    ['compressor', 'position.RF', position, false],
    ['air-spring.LR', 'tank', tank, true],
    ['sensor', 'position.LF', position, true],
  ])('work on %s disturbs %s: %s', (component, key, of, expected) => {
    expect(disturbs(component, key, of)).toBe(expected);
  });
});

describe('staleSince', () => {
  it('gives the first work since then on anything that the channels depend on', () => {
    const log = [
      entry(10, 'replaced', 'sensor.LF'),
      entry(20, 'tested', 'sensor.LF'),
      entry(30, 'repaired', 'sensor.LF'),
      entry(40, 'replaced', 'control-module'),
    ];
    const first = (at: number, ...keys: string[]) => staleSince(log, channels, keys, at)?.stamp.at ?? null;
    expect(first(5, 'position.LF')).toBe(10);
    expect(first(10, 'position.LF')).toBe(10);
    expect(first(11, 'position.LF')).toBe(30);
    expect(first(11, 'position.RF')).toBe(40);
    expect(first(11, 'position.RF', 'position.LF')).toBe(30);
    expect(first(41, 'position.LF')).toBeNull();
    expect(first(0, 'tank')).toBeNull();
    expect(first(0, 'unknown.LF')).toBeNull();
  });
});

describe('isWork', () => {
  it('is what changes the vehicle', () => {
    expect(
      (['replaced', 'calibrated', 'tested', 'cleared', 'drove'] as const).map((did) =>
        isWork(entry(0, did, null)),
      ),
    ).toEqual([true, true, false, false, false]);
  });
});
