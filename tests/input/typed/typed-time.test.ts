import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTime } from '../../../src/input/job/read-time.ts';
import { typedTime, writtenTime } from '../../../src/input/typed/typed-time.ts';
import { instant } from '../../support/judge.ts';
import { faultOf, understood } from '../../support/typing.ts';

const zone = 'Europe/Dublin';
const evening = instant('2026-03-02T18:00Z');
const typed = (text: string, now = evening) => understood(typedTime(text, zone, now));
const fault = (text: string, now = evening) => faultOf(typedTime(text, zone, now));

describe('a time as typed', () => {
  it.each([
    ['10:30', '2026-03-02T10:30', '2026-03-02T10:30Z'],
    ['9:05', '2026-03-02T09:05', '2026-03-02T09:05Z'],
    ['10:30:15', '2026-03-02T10:30:15', '2026-03-02T10:30:15Z'],
    ['18:00', '2026-03-02T18:00', '2026-03-02T18:00Z'],
    ['2026-03-01T23:50', '2026-03-01T23:50', '2026-03-01T23:50Z'],
    ['2026-03-01 23:50', '2026-03-01T23:50', '2026-03-01T23:50Z'],
    ['2026-03-02T12:00+02:00', '2026-03-02T12:00+02:00', '2026-03-02T10:00Z'],
  ])('%s is written %s', (text, written, at) => {
    expect(typed(text)).toEqual({ text: written, at: instant(at) });
  });

  it('is of today in the zone of the job, not of the machine', () => {
    const justPastMidnight = instant('2026-07-01T23:30Z');
    expect(typed('00:10', justPastMidnight)).toEqual({
      text: '2026-07-02T00:10',
      at: instant('2026-07-01T23:10Z'),
    });
  });

  it.each([
    [
      '18:01',
      '2026-03-02 18:01 is after now (2026-03-02 18:00 Europe/Dublin)',
      'give the day, too, if it was another day',
    ],
    [
      '2026-03-03T08:00',
      '2026-03-03 08:00 is after now (2026-03-02 18:00 Europe/Dublin)',
      'check the day and the hour',
    ],
    ['2026-03-02', '"2026-03-02" has no time of day', 'write it like 2026-03-02T08:40'],
    [
      '25:00',
      '"2026-03-02T25:00" is not on the calendar or the clock',
      'write it like 10:30, or 2026-03-02T10:30',
    ],
    ['24:00', '"2026-03-02T24:00" is past the end of its day', 'write it like 10:30, or 2026-03-02T10:30'],
    ['10.30', '"10.30" is not a time', 'write it like 10:30, or 2026-03-02T10:30'],
    ['', '"" is not a time', 'write it like 10:30, or 2026-03-02T10:30'],
    ['yesterday 10:00', '"yesterday 10:00" is not a time', 'write it like 10:30, or 2026-03-02T10:30'],
    ['yesterday', '"yesterday" is not a time', 'write it like 10:30, or 2026-03-02T10:30'],
  ])('%j is refused with what to write', (text, message, hint) => {
    expect(fault(text)).toMatchObject({ message, hint });
  });
});

describe('a night on which the clocks change', () => {
  it('has no time between 01:00 and 02:00 in spring', () => {
    expect(fault('01:30', instant('2026-03-29T12:00Z'))).toMatchObject({
      message: 'the clocks in Europe/Dublin skip 01:30 on 2026-03-29',
      hint: 'they go forward then; write 2026-03-29T02:30 if that is what was meant',
    });
  });

  it('has that hour twice in autumn: the first counts, and the offset says so', () => {
    const first = { text: '2026-10-25T01:30+01:00', at: instant('2026-10-25T00:30Z') };
    expect(typed('01:30', instant('2026-10-25T12:00Z'))).toEqual(first);
    expect(typed('2026-10-25T01:30', instant('2026-10-26T12:00Z'))).toEqual(first);
    expect(typed('2026-10-25T01:30+00:00', instant('2026-10-25T12:00Z'))).toEqual({
      text: '2026-10-25T01:30+00:00',
      at: instant('2026-10-25T01:30Z'),
    });
  });
});

describe('an instant as it is written', () => {
  it.each([
    ['2026-03-02T10:30:15Z', '2026-03-02T10:30:15'],
    ['2026-07-02T10:30:15Z', '2026-07-02T11:30:15'],
    ['2026-03-29T00:59:59Z', '2026-03-29T00:59:59'],
    ['2026-03-29T01:00:00Z', '2026-03-29T02:00:00'],
    ['2026-10-25T00:30:00Z', '2026-10-25T01:30:00+01:00'],
    ['2026-10-25T01:30:00Z', '2026-10-25T01:30:00+00:00'],
    ['2026-10-25T02:00:00Z', '2026-10-25T02:00:00'],
  ])('%s is %s in Dublin', (at, written) => {
    expect(writtenTime(instant(at), zone).text).toBe(written);
  });

  it('has no seconds where they are not known', () => {
    expect(writtenTime(instant('2026-10-25T01:30Z'), zone, true).text).toBe('2026-10-25T01:30+00:00');
    expect(writtenTime(evening, zone, true).text).toBe('2026-03-02T18:00');
  });

  it('is read back as that instant, and never as one of two', () => {
    const aroundChanges = fc.oneof(
      fc.integer({ min: instant('2026-03-28T22:00Z') / 1000, max: instant('2026-03-29T05:00Z') / 1000 }),
      fc.integer({ min: instant('2026-10-24T22:00Z') / 1000, max: instant('2026-10-25T05:00Z') / 1000 }),
      fc.integer({ min: instant('2025-01-01T00:00Z') / 1000, max: instant('2027-12-31T00:00Z') / 1000 }),
    );
    const zones = fc.constantFrom(zone, 'UTC', 'America/St_Johns', 'Australia/Lord_Howe', 'Pacific/Apia');
    fc.assert(
      fc.property(aroundChanges, zones, (seconds, where) => {
        const written = writtenTime(seconds * 1000, where);
        const read = readTime(written.text, where);
        if (!read.ok) throw new Error(read.message);
        expect(read.stamp.at).toBe(seconds * 1000);
        expect(read.ambiguous).toBe(false);
        expect(understood(typedTime(written.text, where, seconds * 1000))).toEqual(written);
      }),
      { numRuns: 500 },
    );
  });
});
