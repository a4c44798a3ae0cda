import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { calendarTime, offsetOf } from '../../../src/input/job/calendar-time.ts';
import { instantsOf, localAt, startOfDay } from '../../../src/input/job/local-time.ts';

const two = (number: number): string => String(number).padStart(2, '0');
const upTo = (max: number) => fc.integer({ min: 0, max });
const hour = 3_600_000;

describe('the date library has the last word', () => {
  it('on what the calendar and the clock have', () => {
    const parts = fc.tuple(upTo(9999), upTo(13), upTo(32), upTo(25), upTo(61), upTo(61), upTo(999));
    const written = fc.constantFrom('none', 'seconds', 'tenths', 'thousandths');
    fc.assert(
      fc.property(parts, written, ([year, month, day, hours, minutes, whole, thousandths], how) => {
        // What it takes for the end of a day is refused before this is asked.
        fc.pre(hours !== 24);
        const date = `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
        const clock = `${two(hours)}:${two(minutes)}`;
        const fraction = {
          none: '',
          seconds: '',
          tenths: '.5',
          thousandths: `.${String(thousandths).padStart(3, '0')}`,
        };
        const seconds = how === 'none' ? '' : `:${two(whole)}${fraction[how]}`;
        const theirs = DateTime.fromISO(`${date}T${clock}${seconds}Z`, { zone: 'utc' });
        expect(calendarTime(date, clock, seconds)).toBe(theirs.isValid ? theirs.toMillis() : null);
      }),
      { numRuns: 3000 },
    );
  });

  it.each(['1900-02-29', '2000-02-29', '0000-02-29', '0099-12-31', '2026-04-31', '2026-00-10', '9999-12-31'])(
    'on %s',
    (date) => {
      const theirs = DateTime.fromISO(`${date}T00:00Z`, { zone: 'utc' });
      expect(calendarTime(date, '00:00', '')).toBe(theirs.isValid ? theirs.toMillis() : null);
    },
  );

  it('on offsets', () => {
    const offset = fc
      .tuple(fc.constantFrom('+', '-'), upTo(14), upTo(59), fc.constantFrom(':', ''))
      .map(([sign, hours, minutes, colon]) => `${sign}${two(hours)}${colon}${two(minutes)}`);
    fc.assert(
      fc.property(fc.oneof(fc.constant('Z'), offset), (text) => {
        const theirs = DateTime.fromISO(`2026-03-02T08:15${text}`, { zone: 'utc' }).toMillis();
        expect(Date.UTC(2026, 2, 2, 8, 15) - offsetOf(text)).toBe(theirs);
      }),
    );
  });
});

describe('instants of local times', () => {
  const zones = [
    ...[
      'UTC',
      'Europe/Dublin',
      'America/New_York',
      'America/St_Johns',
      'Australia/Lord_Howe',
      'Asia/Kathmandu',
    ],
    ...['Africa/Casablanca', 'Pacific/Apia', 'Pacific/Chatham', 'Antarctica/Troll', 'America/Sao_Paulo'],
  ];

  /** The instants near a local time whose clocks show it, by asking the library of each offset that it has near. */
  const byLibrary = (local: number, zone: string): number[] => {
    const shows = (at: number): number => at + DateTime.fromMillis(at, { zone }).offset * 60_000;
    const around = Array.from({ length: 61 }, (_, index) => local + (index - 30) * hour);
    const offsets = new Set(around.map((at) => shows(at) - at));
    return [...offsets]
      .map((offset) => local - offset)
      .filter((at) => shows(at) === local)
      .sort((a, b) => a - b);
  };

  /** Every change of a zone's clocks in some years, as the local time at which it comes. */
  const changes = new Map(
    zones.map((zone) => {
      const offset = (at: number): number => DateTime.fromMillis(at, { zone }).offset;
      const found: number[] = [];
      for (let at = Date.UTC(2009, 0); at < Date.UTC(2030, 0); at += 24 * hour) {
        if (offset(at) === offset(at + 24 * hour)) continue;
        for (let near = at; near < at + 24 * hour; near += hour / 2) {
          if (offset(near) !== offset(near + hour / 2)) found.push(near + offset(near) * 60_000);
        }
      }
      return [zone, found] as const;
    }),
  );

  it('are those of the library, whether plain, skipped or doubled', () => {
    const counts = [0, 0, 0];
    fc.assert(
      fc.property(
        fc.constantFrom(...zones),
        fc.integer({ min: Date.UTC(1971, 0) / 60_000, max: Date.UTC(2037, 0) / 60_000 }),
        fc.nat(),
        fc.integer({ min: -150, max: 150 }),
        fc.boolean(),
        (zone, anywhere, which, away, near) => {
          const known = changes.get(zone) ?? [];
          const change = known[which % Math.max(1, known.length)];
          const local = near && change !== undefined ? change + away * 60_000 : anywhere * 60_000;
          const instants = instantsOf(local, zone);
          counts[instants.length] = (counts[instants.length] ?? 0) + 1;
          expect(instants).toEqual(byLibrary(local, zone));
          for (const at of instants) expect(localAt(at, zone)).toBe(local);
        },
      ),
      { numRuns: 1500 },
    );
    // Each kind came up.
    expect(Math.min(...counts)).toBeGreaterThan(20);
  });

  it('begin each day where the library begins it', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(
          'UTC',
          'Europe/Dublin',
          'America/New_York',
          'Australia/Lord_Howe',
          'America/Sao_Paulo',
        ),
        fc.integer({ min: Date.UTC(2009, 0) / (24 * hour), max: Date.UTC(2030, 0) / (24 * hour) }),
        (zone, days) => {
          const day = new Date(days * 24 * hour).toISOString().slice(0, 10);
          const theirs = DateTime.fromISO(`${day}T12:00`, { zone }).startOf('day').toMillis();
          expect(startOfDay(days * 24 * hour, zone)).toBe(theirs);
        },
      ),
      { numRuns: 500 },
    );
  });
});
