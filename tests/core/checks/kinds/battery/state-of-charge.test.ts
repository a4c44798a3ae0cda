import { describe, expect, it } from 'vitest';
import { findingOf, judge, said } from '../../../../support/judge.ts';

const pack = `checks:
  - id: rested
    kind: state-of-charge
    title: Rested battery
    of: battery
    temperature: battery-temperature
    in: [rest]
    rested: 3 h
    band: 10 %
    basis: {kind: from-memory}
    tables:
      flooded: {points: [[12.6 V, 100 %], [12.4 V, 75 %], [12.2 V, 50 %], [12.0 V, 25 %], [11.7 V, 0 %]], basis: {kind: published, title: A manual, issuer: An army, clause: 5-9}}
      agm: {points: [[12.0 V, 25 %], [12.8 V, 100 %]], basis: {kind: from-memory, note: steps}}
    freezing:
      specific-gravity: [[0 %, 1.100 %], [100 %, 1.280 %]]
      freezes-at: [[1.100 %, 19 F], [1.280 %, -90 F]]
      basis: {kind: from-memory}
    tiers: [{weight: hold, at-least: 50 %}, {weight: look, at-least: 75 %}]`;

const at = (reading: string, { conditions = 'rested: 8 h', battery = 'battery: flooded', more = '' } = {}) =>
  findingOf(
    judge(
      pack,
      `vehicle: {name: Shuttle 7, layout: four-corner-air${battery && `, ${battery}`}}
snapshots:
  - {id: night, at: 2026-03-02T06:00, state: rest, conditions: {${conditions}}, readings: {battery: ${reading}${more}}}`,
    ),
    'rested',
    'battery',
  );

describe('state of charge', () => {
  it.each([
    ['11.90 V', 'out hold'],
    ['12.20 V', 'out look'],
    ['12.60 V', 'within look'],
    ['12.40 V', 'too-close look'],
  ])('%s: %s', (volts, expected) => {
    expect(said(at(volts))).toBe(expected);
  });

  it('judges by the table of the battery’s kind and gives that table’s basis', () => {
    expect(at('12.60 V')).toMatchObject({
      measured: { value: expect.closeTo(100, 9), unit: '%' },
      basis: { kind: 'published', source: 'An army, A manual, 5-9' },
    });
    expect(at('12.60 V', { battery: 'battery: agm' })).toMatchObject({
      measured: { value: expect.closeTo(81.25, 9) },
      basis: { kind: 'from-memory', source: 'steps' },
    });
  });

  it('says where the table ends', () => {
    expect(at('12.90 V').remarks).toContainEqual({ kind: 'at-table-end', end: 'high' });
    expect(at('11.20 V').remarks).toContainEqual({ kind: 'at-table-end', end: 'low' });
    expect(at('12.30 V').remarks).toEqual([]);
  });

  it('is a band of ± 10 %, and the meter widens it by the slope of the table', () => {
    const volts = Math.hypot((0.005 * 12.3 + 0.02) / Math.sqrt(3), 0.01 / Math.sqrt(12));
    expect(at('12.30 V').measured?.expanded).toBeCloseTo(2 * Math.hypot(5, 125 * volts), 6);
  });

  it('advises a last digit of the meter, in volts', () => {
    expect(at('12 V').settle).toEqual({
      how: 'finer-reading',
      placeValue: expect.closeTo(0.1, 12),
      unit: 'V',
    });
  });

  it('wants a rested battery: three hours, or the surface charge taken off', () => {
    expect(at('12.60 V', { conditions: 'rested: 1.5 h' }).missing).toEqual({
      why: 'not-rested',
      hours: 1.5,
      wants: 3,
    });
    expect(at('12.60 V', { conditions: 'doors: shut' }).missing).toEqual({
      why: 'rest-not-stated',
      wants: 3,
    });
    expect(at('12.60 V', { conditions: 'rested: 3 h' }).verdict).toBe('within');
    expect(at('12.60 V', { conditions: 'rested: 180 min' }).verdict).toBe('within');
    expect(at('12.60 V', { conditions: 'surface-charge: taken-off' }).verdict).toBe('within');
    expect(at('12.60 V', { conditions: 'surface-charge: present' }).missing).toMatchObject({
      why: 'rest-not-stated',
    });
  });

  it('wants to know the battery, and has a table for it or says that it has none', () => {
    expect(at('12.60 V', { battery: '' }).missing).toEqual({ why: 'vehicle-not-stated', what: 'battery' });
    expect(at('12.60 V', { battery: 'battery: lithium' }).missing).toEqual({
      why: 'no-table',
      what: 'lithium',
    });
  });

  it('warns that a flat battery may freeze, by its own temperature or the air’s, never by an assumed one', () => {
    const warns = (volts: string, more: { conditions?: string; more?: string }) =>
      at(volts, more).remarks.some(({ kind }) => kind === 'may-freeze');
    const frost = { conditions: 'rested: 8 h, air: -12 °C' };
    expect(warns('11.70 V', frost)).toBe(true);
    expect(warns('12.60 V', frost)).toBe(false);
    expect(warns('11.70 V', { conditions: 'rested: 8 h, air: 5 °C' })).toBe(false);
    expect(warns('11.70 V', { more: ', battery-temperature: -12 °C' })).toBe(true);
    expect(warns('11.70 V', {})).toBe(false);
  });
});
