import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { dateTimeIn, isZone, offsetAt } from '../../src/time/zones.ts';

describe('zones', () => {
  it('are those of the zone database, under all their names', () => {
    for (const zone of Intl.supportedValuesOf('timeZone'))
      expect({ zone, is: isZone(zone) }).toEqual({ zone, is: true });
    expect(['UTC', 'US/Central', 'Etc/GMT+3'].map(isZone)).toEqual([true, true, true]);
    expect(['', 'Europe/Atlantis', 'UTC+1 hour'].map(isZone)).toEqual([false, false, false]);
  });

  it('are ahead of UTC by what the zone database says of the instant', () => {
    const hour = 3_600_000;
    expect(offsetAt('UTC', 0)).toBe(0);
    expect(offsetAt('Asia/Kathmandu', Date.UTC(2026, 0))).toBe(5.75 * hour);
    expect(offsetAt('US/Central', Date.UTC(2026, 6))).toBe(-5 * hour);
    expect(offsetAt('Europe/Dublin', Date.UTC(2026, 2, 29, 1) - 1)).toBe(0);
    expect(offsetAt('Europe/Dublin', Date.UTC(2026, 2, 29, 1))).toBe(hour);
    // Local mean time, to the second.
    expect(offsetAt('America/New_York', Date.UTC(1880, 0))).toBe(-(4 * 3600 + 56 * 60 + 2) * 1000);
  });

  it.each(['Europe/Dublin', 'America/St_Johns', 'Asia/Kathmandu', 'UTC'])(
    'give the date library the dates that it finds itself: %s',
    (zone) => {
      for (const at of [Date.UTC(2026, 2, 29, 0, 59), Date.UTC(2026, 2, 29, 1, 1), Date.UTC(1890, 5)]) {
        const [ours, its] = [dateTimeIn(zone, at), DateTime.fromMillis(at, { zone })];
        for (const form of ["yyyy-MM-dd'T'HH:mm:ss", 'ZZ'])
          expect(ours.toFormat(form)).toBe(its.toFormat(form));
        expect(ours.plus({ days: 1, hours: 5 }).toMillis()).toBe(its.plus({ days: 1, hours: 5 }).toMillis());
      }
    },
  );
});
