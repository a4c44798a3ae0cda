import { DateTime } from 'luxon';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { zoneNamed } from '../../src/time/zones.ts';

describe('zones', () => {
  afterEach(() => vi.resetModules());

  it('are looked up by the clock that whoever starts the program names', async () => {
    vi.resetModules();
    const clock = await import('../../src/time/clock.ts');
    clock.useClockBefore(() => ({ isZone: (name) => name === 'Apron/North', offsetAt: () => 7_200_000 }));
    const zones = await import('../../src/time/zones.ts');
    expect(zones.isZone('Apron/North')).toBe(true);
    expect(zones.isZone('Apron/South')).toBe(false);
    expect(zones.offsetAt('Apron/North', 0)).toBe(7_200_000);
    expect(zones.offsetAt('UTC', 0)).toBe(0);
  });

  it.each(['Europe/Dublin', 'America/St_Johns', 'Asia/Kathmandu', 'UTC'])(
    'are the same for the date library: %s',
    (zone) => {
      for (const at of [Date.UTC(2026, 2, 29, 0, 59), Date.UTC(2026, 2, 29, 1, 1), Date.UTC(1890, 5)]) {
        const [ours, its] = [zoneNamed(zone), zone].map((one) => DateTime.fromMillis(at, { zone: one }));
        for (const form of ["yyyy-MM-dd'T'HH:mm:ss", 'ZZ'])
          expect(ours?.toFormat(form)).toBe(its?.toFormat(form));
        expect(ours?.plus({ days: 1, hours: 5 }).toMillis()).toBe(
          its?.plus({ days: 1, hours: 5 }).toMillis(),
        );
      }
    },
  );

  it('keep apart for the date library', () => {
    const zone = zoneNamed('Europe/Dublin');
    expect(zone.equals(zoneNamed('Europe/Dublin'))).toBe(true);
    expect(zone.equals(zoneNamed('Asia/Tokyo'))).toBe(false);
    expect(DateTime.fromMillis(0, { zone: zoneNamed('Europe/Atlantis') }).isValid).toBe(false);
  });
});
