import { isMainThread } from 'node:worker_threads';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hostClock } from '../../src/shell/host-clock.ts';
import { libraryClock } from '../../src/time/zones.ts';

const zones = Intl.supportedValuesOf('timeZone');

describe('the clock of the process', () => {
  it('is tried where the process can be sent into another zone', () => {
    expect(isMainThread).toBe(true);
  });

  it('agrees with the library on every zone, at any instant since 1850', () => {
    const at = fc.integer({ min: Date.UTC(1850, 0), max: Date.UTC(2100, 0) });
    fc.assert(
      fc.property(fc.constantFrom(...zones), at, (zone, instant) => {
        const clock = hostClock(process.env, libraryClock);
        expect(clock.isZone(zone)).toBe(true);
        expect(clock.offsetAt(zone, instant)).toBe(libraryClock.offsetAt(zone, instant));
      }),
      { numRuns: 2_000 },
    );
  });

  it('asks the library for the other names of zones, and for what is none', () => {
    const clock = hostClock(process.env, libraryClock);
    expect(clock.isZone('US/Central')).toBe(true);
    expect(clock.isZone('Europe/Atlantis')).toBe(false);
    expect(clock.offsetAt('US/Central', Date.UTC(2026, 6))).toBe(-5 * 3_600_000);
  });

  it('leaves the process where it was', () => {
    for (const there of ['America/Chicago', undefined]) {
      const env: NodeJS.ProcessEnv = there === undefined ? {} : { TZ: there };
      const clock = hostClock(env, libraryClock);
      clock.isZone('Asia/Tokyo');
      clock.offsetAt('Asia/Tokyo', 0);
      expect(env).toEqual(there === undefined ? {} : { TZ: there });
    }
  });

  it('answers rightly where the process stays put', () => {
    // An environment that is not the process' own moves nothing, as a thread's copy does.
    const clock = hostClock({}, libraryClock);
    expect(clock.isZone('Asia/Kolkata')).toBe(true);
    expect(clock.offsetAt('Asia/Kolkata', 0)).toBe(5.5 * 3_600_000);
  });

  it('answers as rightly after many questions', () => {
    const clock = hostClock(process.env, libraryClock);
    clock.isZone('Europe/Dublin');
    for (let day = 0; day < 400; day += 1) {
      const at = Date.UTC(2026, 0, 1 + day);
      expect(clock.offsetAt('Europe/Dublin', at)).toBe(libraryClock.offsetAt('Europe/Dublin', at));
    }
  });
});
