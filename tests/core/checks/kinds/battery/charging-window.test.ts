import { describe, expect, it } from 'vitest';
import { findingOf, judge, said } from '../../../../support/judge.ts';

const pack = `checks:
  - id: window
    kind: charging-window
    title: Charging window
    of: battery
    temperature: battery-temperature
    in: [running]
    at-temperature: 25 °C
    per-degree-and-cell: 4 mV
    cells: 6
    hold-inside: [13.0 V, 15.8 V]
    basis: {kind: common-practice}
    tiers: [{weight: look, between: [13.5 V, 14.8 V]}, {weight: hold, between: [13.2 V, 15.2 V]}]`;

const at = (readings: string, conditions = 'doors: shut', charging = 'charging: fixed') =>
  findingOf(
    judge(
      pack,
      `vehicle: {name: Shuttle 7, layout: four-corner-air${charging && `, ${charging}`}}
snapshots:
  - {id: idle, at: 2026-03-02T09:00, state: running, conditions: {${conditions}}, readings: {${readings}}}`,
    ),
    'window',
    'battery',
  );

describe('the charging window', () => {
  it.each([
    ['12.80 V', 'out hold', 'low'],
    ['13.30 V', 'out look', 'low'],
    ['14.20 V', 'within look', null],
    ['15.00 V', 'out look', 'high'],
    ['15.50 V', 'out hold', 'high'],
  ])('at 25 °C, %s: %s', (volts, expected, side) => {
    const finding = at(`battery: ${volts}, battery-temperature: 25.0 °C`);
    expect(said(finding)).toBe(expected);
    expect(finding.side).toBe(side);
  });

  it('rises on a cold battery and falls on a hot one, by 24 mV a degree', () => {
    expect(at('battery: 14.20 V, battery-temperature: 0.0 °C').limits).toEqual({
      low: expect.closeTo(14.1, 10),
      high: expect.closeTo(15.4, 10),
    });
    expect(at('battery: 14.20 V, battery-temperature: 50.0 °C').limits).toEqual({
      low: expect.closeTo(12.9, 10),
      high: expect.closeTo(14.2, 10),
    });
    expect(said(at('battery: 15.00 V, battery-temperature: 0.0 °C'))).toBe('within look');
    expect(said(at('battery: 14.90 V, battery-temperature: 50.0 °C'))).toBe('out hold');
  });

  it('keeps hold limits inside 13.0 to 15.8 V at any temperature', () => {
    expect(at('battery: 16.20 V, battery-temperature: -30.0 °C')).toMatchObject({
      weight: 'hold',
      limits: { high: 15.8 },
    });
    expect(at('battery: 12.40 V, battery-temperature: 60.0 °C')).toMatchObject({
      weight: 'hold',
      limits: { low: 13 },
    });
  });

  it('widens by what is not known of the temperature, and says where it came from', () => {
    const read = at('battery: 14.20 V, battery-temperature: 25.0 °C');
    const air = at('battery: 14.20 V', 'air: 25.0 °C');
    const assumed = at('battery: 14.20 V');
    expect(read.remarks).toEqual([{ kind: 'temperature-read', celsius: 25 }]);
    expect(air.remarks).toEqual([{ kind: 'temperature-from-air', celsius: 25 }]);
    expect(assumed.remarks).toEqual([{ kind: 'temperature-assumed', celsius: 25 }]);
    const meter = Math.hypot((0.005 * 14.2 + 0.02) / Math.sqrt(3), 0.01 / Math.sqrt(12));
    const degrees = (half: number) => (0.024 * half) / Math.sqrt(3);
    const digits = 0.024 * (0.1 / Math.sqrt(12));
    expect(read.measured?.expanded).toBeCloseTo(2 * Math.hypot(meter, degrees(1), digits), 10);
    expect(air.measured?.expanded).toBeCloseTo(2 * Math.hypot(meter, degrees(1), digits, degrees(15)), 10);
    expect(assumed.measured?.expanded).toBeCloseTo(2 * Math.hypot(meter, degrees(15)), 10);
  });

  it('is not taken of a vehicle that does not say how it charges, or that has no limits for it', () => {
    const readings = 'battery: 14.20 V, battery-temperature: 25.0 °C';
    expect(at(readings, 'doors: shut', '').missing).toEqual({ why: 'vehicle-not-stated', what: 'charging' });
    expect(at(readings, 'doors: shut', 'charging: managed').missing).toMatchObject({ why: 'no-limits' });
  });

  it('is not taken without the battery’s volts', () => {
    expect(at('battery-temperature: 25.0 °C').missing).toMatchObject({
      why: 'no-reading',
      channels: ['battery'],
    });
  });
});

describe('a temperature in other degrees', () => {
  it('leaves the same uncertainty as in °C', () => {
    const fahrenheit = `${pack}
channels:
  - {id: battery, title: battery, quantity: voltage, unit: V, by: meter, depends: []}
  - {id: battery-temperature, title: temperature, quantity: temperature, unit: °F, by: thermometer, depends: []}`;
    const finding = findingOf(
      judge(
        fahrenheit,
        `vehicle: {name: Shuttle 7, layout: four-corner-air, charging: fixed}
snapshots: [{id: idle, at: 2026-03-02T09:00, state: running, readings: {battery: 14.20 V, battery-temperature: 77.0 °F}}]`,
      ),
      'window',
      'battery',
    );
    const meter = Math.hypot((0.005 * 14.2 + 0.02) / Math.sqrt(3), 0.01 / Math.sqrt(12));
    const digits = 0.024 * (0.1 / 1.8 / Math.sqrt(12));
    expect(finding.limits?.high).toBeCloseTo(14.8, 9);
    expect(finding.measured?.expanded).toBeCloseTo(2 * Math.hypot(meter, 0.024 / Math.sqrt(3), digits), 10);
  });
});

describe('managed charging', () => {
  const managed = `${pack}
    managed: [{weight: look, at-least: 13.2 V, needs: {heavy-load: on, idle: raised}}]`;
  const under = (volts: string, conditions: string) =>
    findingOf(
      judge(
        managed,
        `vehicle: {name: Shuttle 7, layout: four-corner-air, charging: managed}
snapshots:
  - {id: idle, at: 2026-03-02T09:00, state: running, conditions: {${conditions}}, readings: {battery: ${volts}}}`,
      ),
      'window',
      'battery',
    );

  it('is judged only with a heavy load and raised idle', () => {
    expect(said(under('14.20 V', 'heavy-load: on, idle: raised'))).toBe('within look');
    expect(said(under('12.60 V', 'heavy-load: on, idle: raised'))).toBe('out look');
    expect(under('12.60 V', 'heavy-load: off, idle: raised').missing).toMatchObject({
      why: 'condition-differs',
      condition: 'heavy-load',
    });
    expect(under('12.60 V', 'heavy-load: on').missing).toMatchObject({
      why: 'condition-not-stated',
      condition: 'idle',
    });
  });
});
