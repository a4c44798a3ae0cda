import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { endOfDay, after as later, readTime } from '../../../src/input/job/read-time.ts';
import { isZone } from '../../../src/time/zones.ts';

const utc = (text: string): number => Date.parse(`${text}Z`);
const instantOf = (text: string, zone: string): number | null => {
  const read = readTime(text, zone);
  return read.ok ? read.stamp.at : null;
};

describe('readTime', () => {
  it.each([
    ['2026-03-02T08:15', 'Europe/Dublin', '2026-03-02T08:15', 60_000],
    ['2026-07-02T08:15', 'Europe/Dublin', '2026-07-02T07:15', 60_000],
    ['2026-03-02 08:15', 'UTC', '2026-03-02T08:15', 60_000],
    ['2026-03-02T08:15:10', 'UTC', '2026-03-02T08:15:10', 1000],
    ['2026-03-02T08:15:10.5', 'UTC', '2026-03-02T08:15:10.500', 1],
    ['2026-03-02T08:15Z', 'Europe/Dublin', '2026-03-02T08:15', 60_000],
    ['2026-07-02T08:15+05:30', 'Europe/Dublin', '2026-07-02T02:45', 60_000],
    ['2026-07-02T08:15-0330', 'Europe/Dublin', '2026-07-02T11:45', 60_000],
    ['2026-07-02', 'Europe/Dublin', '2026-07-01T23:00', 86_400_000],
  ])('reads %s in %s', (text, zone, instant, resolution) => {
    expect(readTime(text, zone)).toEqual({
      ok: true,
      stamp: { at: utc(instant), resolution },
      ambiguous: false,
    });
  });

  it.each([
    ['', 'bad-time'],
    ['yesterday', 'bad-time'],
    ['2026-3-2', 'bad-time'],
    ['02.03.2026', 'bad-time'],
    ['08:15', 'bad-time'],
    ['2026-02-30', 'bad-time'],
    ['2026-13-01T08:15', 'bad-time'],
    ['2026-03-02T08:75', 'bad-time'],
    ['2026-03-02T24:00', 'bad-time'],
    ['2026-03-02T24:00Z', 'bad-time'],
    ['2026-03-02T25:00', 'bad-time'],
    ['2026-03-02T08:15:60', 'bad-time'],
    ['2026-03-02T08:15+25:00', 'bad-time'],
    ['2026-03-02T08:15 Europe/Dublin', 'bad-time'],
    ['2026-03-29T01:30', 'skipped-time'],
  ])('refuses %s as %s', (text, code) => {
    expect(readTime(text, 'Europe/Dublin')).toMatchObject({ ok: false, code });
  });

  it.each([
    ['Europe/Dublin', '2026-03-29T01:00', '2026-03-29T02:00'],
    ['Australia/Lord_Howe', '2026-10-04T02:15', '2026-10-04T02:45'],
    ['America/Sao_Paulo', '2018-11-04T00:30', '2018-11-04T01:30'],
    ['Pacific/Apia', '2011-12-30T12:00', '2011-12-31T12:00'],
    ['Africa/Casablanca', '2026-03-22T02:30', '2026-03-22T03:30'],
  ])('in %s the time %s is skipped, and %s is offered', (zone, text, offered) => {
    const read = readTime(text, zone);
    expect(read).toMatchObject({ ok: false, code: 'skipped-time' });
    expect(read.ok ? '' : read.hint).toContain(offered);
  });

  it.each([
    ['Europe/Dublin', '2026-10-25T01:30', '2026-10-25T00:30'],
    ['America/St_Johns', '2026-11-01T01:30', '2026-11-01T04:00'],
    ['Australia/Lord_Howe', '2026-04-05T01:45', '2026-04-04T14:45'],
    ['America/Sao_Paulo', '2018-02-17T23:30', '2018-02-18T01:30'],
    ['Africa/Casablanca', '2026-02-15T02:30', '2026-02-15T01:30'],
  ])('in %s the time %s comes twice, and the first counts', (zone, text, instant) => {
    expect(readTime(text, zone)).toMatchObject({ ok: true, ambiguous: true, stamp: { at: utc(instant) } });
    expect(instantOf(`${text}Z`, zone)).toBe(utc(text));
  });

  it('a day begins at its first instant, where its midnight is skipped or comes twice', () => {
    expect(instantOf('2018-11-04', 'America/Sao_Paulo')).toBe(utc('2018-11-04T03:00'));
    expect(instantOf('2026-11-01', 'America/Havana')).toBe(utc('2026-11-01T04:00'));
    expect(readTime('2026-11-01', 'America/Havana')).toMatchObject({ ambiguous: false });
    expect(readTime('2011-12-30', 'Pacific/Apia')).toMatchObject({ ok: false, code: 'skipped-time' });
  });

  it('finds the same instants as a search through all of them', () => {
    // An independent way: every quarter of an hour near the time is asked what its clock shows.
    const clocks = new Map<string, Intl.DateTimeFormat>();
    const shows = (at: number, zone: string): string => {
      const clock =
        clocks.get(zone) ??
        new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'short' });
      clocks.set(zone, clock);
      return clock.format(at).replace(' ', 'T');
    };
    const zones = [
      ...['Europe/Dublin', 'Australia/Lord_Howe', 'America/Sao_Paulo', 'Africa/Casablanca', 'Asia/Kathmandu'],
      ...['Pacific/Apia', 'America/St_Johns', 'America/Havana', 'Pacific/Chatham', 'Antarctica/Troll', 'UTC'],
    ];
    const quarter = 15 * 60_000;
    const year = { min: Date.UTC(2010, 0) / quarter, max: Date.UTC(2030, 0) / quarter };
    const nearChange = (zone: string, from: number): number => {
      const offset = (at: number): number => Date.parse(`${shows(at, zone)}Z`) - at;
      for (let at = from; at < from + 400 * 86_400_000; at += 86_400_000) {
        if (offset(at) !== offset(at + 86_400_000)) return at;
      }
      return from;
    };
    fc.assert(
      fc.property(
        fc.constantFrom(...zones),
        fc.integer(year),
        fc.integer({ min: 0, max: 200 }),
        (zone, from, step) => {
          const local = new Date(nearChange(zone, from * quarter) + step * quarter)
            .toISOString()
            .slice(0, 16);
          const found: number[] = [];
          for (let at = utc(local) - 15 * 3_600_000; at <= utc(local) + 15 * 3_600_000; at += quarter) {
            if (shows(at, zone) === local) found.push(at);
          }
          const read = readTime(local, zone);
          expect(read.ok ? read.stamp.at : null).toBe(found[0] ?? null);
          if (read.ok) expect(read.ambiguous).toBe(found.length > 1);
          else expect(read.code).toBe('skipped-time');
        },
      ),
      { numRuns: 150 },
    );
  });

  it('never throws and never gives an instant that is none', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'0123456789-:TZ+. ') }), (text) => {
        const read = readTime(text, 'Europe/Dublin');
        if (read.ok) expect(Number.isSafeInteger(read.stamp.at)).toBe(true);
        else expect(read.message).not.toBe('');
      }),
    );
  });
});

describe('zones', () => {
  it.each(['Europe/Dublin', 'UTC', 'Etc/GMT+5', 'America/Argentina/Buenos_Aires'])('%s is one', (zone) => {
    expect(isZone(zone)).toBe(true);
  });
  it.each(['', 'Dublin', 'local', 'system', '+01:00', 'UTC+1', 'Europe/Dubln'])('%j is none', (zone) => {
    expect(isZone(zone)).toBe(false);
  });
});

describe('ends', () => {
  it('a day ends where the next begins, however long it is', () => {
    expect(endOfDay('2026-03-29', 'Europe/Dublin')).toBe(utc('2026-03-29T23:00'));
    expect(endOfDay('2018-11-03', 'America/Sao_Paulo')).toBe(utc('2018-11-04T03:00'));
    expect(endOfDay('2026-02-30', 'UTC')).toBeNull();
    expect(endOfDay('2026-03-09T10:00', 'UTC')).toBeNull();
  });

  it('a duration counts on the calendar', () => {
    expect(later(utc('2026-03-28T12:00'), 'P1D', 'Europe/Dublin')).toBe(utc('2026-03-29T11:00'));
    expect(later(utc('2026-03-28T12:00'), 'PT24H', 'Europe/Dublin')).toBe(utc('2026-03-29T12:00'));
    expect(later(utc('2026-01-31T00:00'), 'P1M', 'UTC')).toBe(utc('2026-02-28T00:00'));
  });

  it.each(['', 'P', 'PT', '7D', 'P1Y2', '-P7D', 'P-7D', 'p7d', 'P99999999Y', 'a week'])(
    '%j is none',
    (text) => {
      expect(later(0, text, 'UTC')).toBeNull();
    },
  );
});
