import { describe, expect, it } from 'vitest';
import { typedDay } from '../../../src/input/typed/typed-day.ts';
import { faultOf, understood } from '../../support/typing.ts';

const now = Date.UTC(2026, 2, 2, 23, 30);
const day = (typed: string, zone = 'UTC') => typedDay(typed, zone, now);

describe('a last day', () => {
  it.each([
    ['2026-03-09', '2026-03-09'],
    [' 2026-03-02 ', '2026-03-02'],
    ['7d', '2026-03-09'],
    ['P7D', '2026-03-09'],
    ['2w', '2026-03-16'],
    ['0d', '2026-03-02'],
  ])('%j is %s', (typed, text) => {
    expect(understood(day(typed))).toBe(text);
  });

  it('is counted from today in the zone of the job', () => {
    expect(understood(day('1d', 'Pacific/Auckland'))).toBe('2026-03-04');
  });

  it.each(['soon', '2026-13-01', '2026-02-30', '9.3.', '7', '', '2026-03-09T10:00'])(
    '%j is none',
    (typed) => {
      expect(faultOf(day(typed))).toMatchObject({
        message: `"${typed}" is not a day`,
        hint: 'write it like 2026-03-09, or 7d for a week from today',
      });
    },
  );

  it('that is over is refused', () => {
    expect(faultOf(day('2026-03-01')).message).toBe('2026-03-01 is over (today is 2026-03-02)');
  });
});
