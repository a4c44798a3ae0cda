import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Spread } from '../../../src/core/readings/estimate.ts';
import { settle } from '../../../src/core/readings/settle.ts';
import { judge, type Limits, margin } from '../../../src/core/readings/verdict.ts';

const spread = (scatter: number, accuracy: number): Spread => ({
  scatter,
  accuracy,
  total: Math.hypot(scatter, accuracy),
});

const limits = { low: 1, high: 2 };

describe('settle', () => {
  it('asks for a finer reading where the last digit is the trouble', () => {
    expect(settle(1.08, spread(0.1 / Math.sqrt(12), 0.005), limits, 'resolution', 1)).toMatchObject({
      how: 'finer-reading',
      placeValue: expect.closeTo(0.1, 12),
    });
    expect(settle(1.03, spread(0.1 / Math.sqrt(12), 0.005), limits, 'resolution', 1)).toMatchObject({
      how: 'finer-reading',
      placeValue: expect.closeTo(0.01, 12),
    });
  });

  it('counts what the last digit of each reading does to the result', () => {
    const pair = {
      ...spread(0.1 / Math.sqrt(6), 0),
      perReading: { sensitivity: Math.SQRT2, unit: 'V' as const },
    };
    // Room 0.07: a place value of 0.1 V would do for one reading, not for the difference of two.
    expect(settle(1.07, pair, limits, 'resolution', 1)).toMatchObject({
      how: 'finer-reading',
      placeValue: expect.closeTo(0.01, 12),
      unit: 'V',
    });
    expect(settle(1.07, spread(0.1 / Math.sqrt(6), 0), limits, 'resolution', 1)).toMatchObject({
      how: 'finer-reading',
      placeValue: expect.closeTo(0.1, 12),
    });
  });

  it('asks for a digit more where the room would only just be filled', () => {
    // At the very edge of the room a value is still too close: U = 2 × 0.1/√12 is all of it.
    const value = 1 - 2 * (0.1 / Math.sqrt(12));
    expect(settle(value, spread(1 / Math.sqrt(12), 0), limits, 'resolution', 1)).toMatchObject({
      placeValue: expect.closeTo(0.01, 12),
    });
  });

  it('asks for repeats where the readings scatter, with the number that is enough', () => {
    expect(settle(1.06, spread(0.05, 0.005), limits, 'repeats', 3)).toEqual({ how: 'repeat', times: 9 });
  });

  it('asks for no better instrument where it is the readings that scatter', () => {
    expect(settle(1.02, spread(0.1, 0.005), limits, 'repeats', 3)).toMatchObject({ how: 'repeat' });
  });

  it('asks for a better instrument where its accuracy is the trouble', () => {
    expect(settle(1.05, spread(0.003, 0.03), limits, 'resolution', 1)).toMatchObject({
      how: 'better-instrument',
      halfWidth: expect.closeTo(0.04, 12),
    });
  });

  it('says that the instrument is too coarse where the limits lie closer than it can tell apart', () => {
    expect(settle(1.5, spread(0.003, 0.3), limits, 'resolution', 1)).toMatchObject({
      how: 'instrument-too-coarse',
      halfWidth: expect.closeTo(0.3, 12),
    });
  });

  it('blames no instrument for a reading that was typed too coarsely', () => {
    expect(settle(1.2, spread(1 / Math.sqrt(12), 0.01), limits, 'resolution', 1)).toMatchObject({
      how: 'finer-reading',
      placeValue: expect.closeTo(0.1, 12),
    });
  });

  it('says so where the value lies on its limit', () => {
    expect(settle(1, spread(0.003, 0.03), limits, 'resolution', 1)).toEqual({ how: 'on-the-limit' });
    expect(settle(2.0001, spread(0.003, 0.03), limits, 'repeats', 4)).toEqual({ how: 'on-the-limit' });
  });

  it('gives a number even where the two limits are one', () => {
    expect(settle(1, spread(0.003, 0.03), { low: 1, high: 1 }, 'resolution', 1)).toMatchObject({
      how: 'instrument-too-coarse',
      halfWidth: 0,
    });
  });
});

describe('where the instrument is not the trouble', () => {
  const accurate = { scatter: 0.003, accuracy: 0.2, total: 0.2 };

  it('asks for the temperature that moves the limit', () => {
    const besides = { standard: 0.19, from: 'temperature' } as const;
    const advice = settle(1.1, { ...accurate, besides }, { low: 1, high: null }, 'resolution', 1);
    expect(advice).toEqual({ how: 'read-temperature' });
  });

  it('says that the table is no finer', () => {
    const besides = { standard: 0.19, from: 'table' } as const;
    const advice = settle(1.1, { ...accurate, besides }, { low: 1, high: null }, 'resolution', 1);
    expect(advice).toEqual({ how: 'table-too-coarse' });
  });

  it('still blames the instrument for the greater part', () => {
    const besides = { standard: 0.05, from: 'temperature' } as const;
    const advice = settle(1.1, { ...accurate, besides }, { low: 1, high: null }, 'resolution', 1);
    expect(advice).toMatchObject({ how: 'better-instrument' });
  });
});

/** The uncertainty once the advice is followed, everything else as it was. */
const followed = (
  advice: ReturnType<typeof settle>,
  { scatter, accuracy, perReading }: Spread,
  count: number,
): number[] => {
  switch (advice.how) {
    case 'finer-reading':
      return [Math.hypot(((perReading?.sensitivity ?? 1) * advice.placeValue) / Math.sqrt(12), accuracy)];
    case 'repeat':
      return [Math.hypot(scatter * Math.sqrt(count / advice.times), accuracy)];
    case 'better-instrument':
    case 'instrument-too-coarse': {
      const half = ((perReading?.sensitivity ?? 1) * advice.halfWidth) / Math.sqrt(3);
      // A better instrument comes with a finer last digit, where the one typed is too coarse by itself.
      return [Math.hypot(scatter, half), Math.hypot(Math.min(scatter, 0.4 * half), half)];
    }
    case 'read-temperature':
    case 'table-too-coarse':
    case 'on-the-limit':
      return [];
  }
};

describe('the advice settles the very value that it is given for', () => {
  const someLimits: fc.Arbitrary<Limits> = fc
    .tuple(
      fc.integer({ min: 0, max: 200 }),
      fc.integer({ min: 1, max: 300 }),
      fc.constantFrom('both', 'low', 'high'),
    )
    .map(([low, width, sides]) => ({
      low: sides === 'high' ? null : low / 100,
      high: sides === 'low' ? null : (low + width) / 100,
    }));

  it('finer, repeated or through a better instrument it is within or out', () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(
        fc.integer({ min: -100, max: 600 }),
        fc.double({ min: 0.0005, max: 0.5, noNaN: true }),
        fc.double({ min: 0.0005, max: 0.5, noNaN: true }),
        fc.double({ min: 0.3, max: 3, noNaN: true }),
        fc.constantFrom('resolution' as const, 'repeats' as const),
        fc.integer({ min: 2, max: 6 }),
        someLimits,
        (hundredths, scatter, accuracy, sensitivity, from, count, limit) => {
          const value = hundredths / 100;
          const parts: Spread = { ...spread(scatter, accuracy), perReading: { sensitivity, unit: 'V' } };
          fc.pre(judge(value, 2 * parts.total, limit).verdict === 'too-close');
          const advice = settle(value, parts, limit, from, count);
          seen.add(advice.how);
          const after = followed(advice, parts, count);
          const settled = after.map((standard) => judge(value, 2 * standard, limit).verdict);
          const room = Math.abs(margin(value, limit) ?? 0);
          // So near to its limit nothing settles it, and an instrument too coarse for any value is told first.
          const onLimit = room <= 0.04 * parts.total;
          if (advice.how === 'on-the-limit') expect(onLimit).toBe(true);
          if (onLimit) return;
          expect(settled.some((verdict) => verdict !== 'too-close')).toBe(true);
        },
      ),
      { numRuns: 2000, seed: 7 },
    );
    expect([...seen].sort()).toEqual([
      'better-instrument',
      'finer-reading',
      'instrument-too-coarse',
      'on-the-limit',
      'repeat',
    ]);
  });
});
