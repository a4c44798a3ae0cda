import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { combine, type Estimate, estimate, spreadOfOne } from '../../../src/core/readings/estimate.ts';
import {
  type Instrument,
  type OffsetKind,
  usualInstruments,
} from '../../../src/core/readings/instruments.ts';
import { parseQuantity } from '../../../src/core/readings/parse-quantity.ts';
import type { UnitName } from '../../../src/core/readings/units.ts';

const meter: Instrument = {
  name: 'meter',
  accuracy: [{ quantity: 'voltage', gain: 0.005, fixed: 0.02, unit: 'V' }],
  shows: null,
  offset: 'common',
};

const typed = (texts: readonly string[], unit: UnitName = 'V') =>
  texts.map((text) => {
    const parsed = parseQuantity(text, unit);
    if (!parsed.ok) throw new Error(parsed.fault.message);
    return parsed.value;
  });

const read = (texts: string | readonly string[], instrument = meter): Estimate =>
  estimate(typed(typeof texts === 'string' ? [texts] : texts), 'V', instrument);

describe('a typed reading', () => {
  it('has the resolution of its last digit: 2.5 is ten times as coarse as 2.50', () => {
    expect(read('2.50 V').scatter).toBeCloseTo(0.01 / Math.sqrt(12), 12);
    expect(read('2.5 V').scatter).toBeCloseTo(0.1 / Math.sqrt(12), 12);
    expect(read('2.50 V').scatterFrom).toBe('resolution');
  });

  it('has the resolution that its instrument shows, whatever was typed', () => {
    const showing = { ...meter, shows: { value: 1, unit: 'mV' as const } };
    expect(read('2.5 V', showing).scatter).toBeCloseTo(0.001 / Math.sqrt(12), 12);
  });

  it('pays no heed to what an instrument shows of another quantity', () => {
    const showing = { ...meter, shows: { value: 1, unit: 'psi' as const } };
    expect(read('2.5 V', showing).scatter).toBeCloseTo(0.1 / Math.sqrt(12), 12);
  });

  it('brings the accuracy of its quantity, turned into its unit', () => {
    const gauge: Instrument = {
      name: 'gauge',
      accuracy: [
        { quantity: 'voltage', gain: 0.5, fixed: 9, unit: 'V' },
        { quantity: 'pressure', gain: 0.01, fixed: 1, unit: 'psi' },
      ],
      shows: null,
      offset: 'common',
    };
    const [value] = typed(['6.6 bar'], 'bar');
    expect(value && estimate([value], 'bar', gauge)).toMatchObject({
      gain: 0.01,
      offset: expect.closeTo(0.068_947_6, 7),
    });
  });

  it('has no accuracy where its instrument has none for the quantity', () => {
    const tape: Instrument = { name: 'tape', accuracy: [], shows: null, offset: 'independent' };
    expect(read('2.50 V', tape)).toMatchObject({ offset: 0, gain: 0 });
  });
});

describe('repeats', () => {
  it('count by their mean and s/√n where that is the larger part', () => {
    const three = read(['2.40 V', '2.50 V', '2.60 V']);
    expect(three.value).toBeCloseTo(2.5, 12);
    expect(three.scatter).toBeCloseTo(0.1 / Math.sqrt(3), 12);
    expect(three.scatterFrom).toBe('repeats');
  });

  it('count by the resolution where they agree better than it, never by both', () => {
    const same = read(['2.5 V', '2.5 V', '2.5 V']);
    expect(same.scatter).toBeCloseTo(0.1 / Math.sqrt(12), 12);
    expect(same.scatterFrom).toBe('resolution');
  });

  it('have the coarsest resolution among them', () => {
    expect(read(['2.50 V', '2.5 V']).scatter).toBeCloseTo(0.1 / Math.sqrt(12), 12);
  });
});

const part = (value: number, more: Partial<Estimate> = {}): Estimate => ({
  value,
  unit: 'V',
  scatter: 0.01,
  scatterFrom: 'resolution',
  instrument: 'module',
  offset: 0.05,
  offsetOf: 'module',
  gain: 0,
  ...more,
});

describe('what the fixed error of a reading belongs to', () => {
  const belongs = (offset: OffsetKind, text: string, unit: UnitName): string | null => {
    const instrument: Instrument = { name: 'mine', accuracy: [], shows: null, offset };
    return estimate(typed([text], unit), unit, instrument, 'position.LF').offsetOf;
  };

  it.each([
    ['common', '2.50 V', 'V', 'mine'],
    ['common', '400 mm', 'mm', 'mine'],
    ['independent', '2.50 V', 'V', 'position.LF'],
    ['independent', '96 psi', 'psi', 'position.LF'],
    ['independent', '400 mm', 'mm', null],
  ] as const)('%s, %s: %s %s', (offset, text, unit, owner) => {
    expect(belongs(offset, text, unit)).toBe(owner);
  });

  it('is a channel of the module, each length by tape, and else the instrument', () => {
    const usual = Object.fromEntries(usualInstruments.map(({ name, offset }) => [name, offset]));
    expect(usual).toEqual({
      meter: 'common',
      module: 'independent',
      gauge: 'common',
      tape: 'independent',
      thermometer: 'common',
    });
  });
});

describe('combine', () => {
  it('gives a single reading half-width/√3 beside its scatter, percentage and fixed part added', () => {
    const one = combine([{ estimate: part(10, { gain: 0.005, offset: 0.02 }), sensitivity: 1 }]);
    expect(one.accuracy).toBeCloseTo((0.05 + 0.02) / Math.sqrt(3), 12);
    expect(one.scatter).toBe(0.01);
    expect(one.total).toBeCloseTo(Math.hypot(one.accuracy, 0.01), 12);
  });

  it('adds fixed part and percentage for a reading below zero as for one above', () => {
    for (const value of [10, -10]) {
      const reading = part(value, { gain: 0.005, offset: 0.02 });
      const halfWidth = 0.005 * 10 + 0.02;
      expect(spreadOfOne(reading).accuracy).toBeCloseTo(halfWidth / Math.sqrt(3), 12);
      expect(combine([{ estimate: reading, sensitivity: 1 }]).accuracy).toBeCloseTo(
        halfWidth / Math.sqrt(3),
        12,
      );
    }
  });

  it('lets the offset of one instrument cancel between two rising sensors', () => {
    const { accuracy, scatter } = combine([
      { estimate: part(2.5), sensitivity: 1 },
      { estimate: part(2.4), sensitivity: -1 },
    ]);
    expect(accuracy).toBe(0);
    expect(scatter).toBeCloseTo(0.01 * Math.SQRT2, 12);
  });

  it('adds it up between a rising and a falling one, whose slope is turned', () => {
    const { accuracy } = combine([
      { estimate: part(2.5), sensitivity: 1 },
      { estimate: part(2.4), sensitivity: 1 },
    ]);
    expect(accuracy).toBeCloseTo((2 * 0.05) / Math.sqrt(3), 12);
  });

  it('adds fixed errors as independent ones where each channel has its own', () => {
    const apart = combine([
      { estimate: part(2.5, { offsetOf: 'position.LF' }), sensitivity: 1 },
      { estimate: part(2.4, { offsetOf: 'position.RF' }), sensitivity: -1 },
    ]);
    expect(apart.accuracy).toBeCloseTo((Math.SQRT2 * 0.05) / Math.sqrt(3), 12);
    const again = combine([
      { estimate: part(2.5, { offsetOf: 'position.LF' }), sensitivity: 1 },
      { estimate: part(2.4, { offsetOf: 'position.LF' }), sensitivity: -1 },
    ]);
    expect(again.accuracy).toBe(0);
  });

  it('shares nothing between readings that each have their own', () => {
    const own = { instrument: 'tape', offset: 3, offsetOf: null };
    const two = combine([
      { estimate: part(400, own), sensitivity: 1 },
      { estimate: part(410, own), sensitivity: -1 },
    ]);
    expect(two.accuracy).toBeCloseTo((Math.SQRT2 * 3) / Math.sqrt(3), 12);
  });

  it('carries one gain for all channels, and adds it to what their fixed errors come to', () => {
    const both = combine([
      { estimate: part(10, { gain: 0.01, offsetOf: 'position.LF' }), sensitivity: 1 },
      { estimate: part(4, { gain: 0.01, offsetOf: 'position.RF' }), sensitivity: -1 },
    ]);
    expect(both.accuracy).toBeCloseTo((Math.SQRT2 * 0.05 + 0.06) / Math.sqrt(3), 12);
  });

  it('carries the percentage of one instrument with the difference of the values', () => {
    const through = (x: number, y: number) =>
      combine([
        { estimate: part(x, { offset: 0, gain: 0.01 }), sensitivity: 1 },
        { estimate: part(y, { offset: 0, gain: 0.01 }), sensitivity: -1 },
      ]).accuracy;
    expect(through(10, 10)).toBeCloseTo(0, 12);
    expect(through(10, 6)).toBeCloseTo(0.04 / Math.sqrt(3), 12);
  });

  it('adds two instruments as independent ones', () => {
    const { accuracy } = combine([
      { estimate: part(12.2), sensitivity: 1 },
      { estimate: part(12.3, { instrument: 'meter', offset: 0.02, offsetOf: 'meter' }), sensitivity: -1 },
    ]);
    expect(accuracy).toBeCloseTo(Math.hypot(0.05, 0.02) / Math.sqrt(3), 12);
  });

  it('says what a last digit of the readings does to the result', () => {
    const mean = combine([
      { estimate: part(2.5), sensitivity: 0.5 },
      { estimate: part(2.5), sensitivity: 0.5 },
    ]);
    expect(mean.perReading).toEqual({ sensitivity: expect.closeTo(Math.SQRT1_2, 12), unit: 'V' });
  });

  const terms = fc.array(
    fc.record({
      sensitivity: fc.double({ min: -5, max: 5, noNaN: true }),
      instrument: fc.constantFrom('meter', 'module'),
      value: fc.double({ min: -20, max: 20, noNaN: true }),
      scatter: fc.double({ min: 0, max: 1, noNaN: true }),
      offset: fc.double({ min: 0, max: 1, noNaN: true }),
      offsetOf: fc.constantFrom('all', 'position.LF', 'position.RF', null),
      gain: fc.double({ min: 0, max: 0.1, noNaN: true }),
    }),
    { minLength: 1, maxLength: 5 },
  );

  it('does not care in which order its terms come, and never has a negative part', () => {
    fc.assert(
      fc.property(terms, (list) => {
        const made = list.map(({ sensitivity, value, ...more }) => ({
          sensitivity,
          estimate: part(value, more),
        }));
        const there = combine(made);
        const back = combine(made.toReversed());
        expect(back.total).toBeCloseTo(there.total, 10);
        expect(there.scatter).toBeGreaterThanOrEqual(0);
        expect(there.accuracy).toBeGreaterThanOrEqual(0);
        expect(there.total).toBeGreaterThanOrEqual(Math.max(there.scatter, there.accuracy) - 1e-12);
      }),
    );
  });

  it('scales with the result: twice the sensitivities give twice the uncertainty', () => {
    fc.assert(
      fc.property(terms, (list) => {
        const made = (by: number) =>
          combine(
            list.map(({ sensitivity, value, ...more }) => ({
              sensitivity: by * sensitivity,
              estimate: part(value, more),
            })),
          ).total;
        expect(made(2)).toBeCloseTo(2 * made(1), 9);
      }),
    );
  });
});
