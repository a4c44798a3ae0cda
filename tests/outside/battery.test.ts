import { describe, expect, it } from 'vitest';
import { interpolate } from '../../src/core/readings/interpolate.ts';
import { convert } from '../../src/core/readings/units.ts';
import { findingOf, judge, said } from '../support/judge.ts';

/**
 * Flooded: US Army TM 5-3805-262-20, paragraph 5-9. AGM full: US Army TM 9-6115-730-24, work package 0050; the AGM
 * steps below full are values from memory. Freezing: two agreeing US Army texts.
 */
const rested = `checks:
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
      flooded: {points: [[11.7 V, 0 %], [12.0 V, 25 %], [12.2 V, 50 %], [12.4 V, 75 %], [12.6 V, 100 %]], basis: {kind: from-memory}}
      agm: {points: [[12.0 V, 25 %], [12.3 V, 50 %], [12.6 V, 75 %], [12.8 V, 100 %]], basis: {kind: from-memory}}
    tiers: [{weight: hold, at-least: 50 %}, {weight: look, at-least: 75 %}]`;

const charge = (volts: string, battery = 'flooded') =>
  findingOf(
    judge(
      rested,
      `vehicle: {name: Shuttle 7, layout: four-corner-air, battery: ${battery}}
snapshots:
  - {id: night, at: 2026-03-02T06:00, state: rest, conditions: {rested: 8 h}, readings: {battery: ${volts}}}`,
    ),
    'rested',
    'battery',
  );

describe('rest voltage and state of charge', () => {
  it.each([
    ['12.70 V', 100],
    ['12.60 V', 100],
    ['12.40 V', 75],
    ['12.20 V', 50],
    ['12.00 V', 25],
    ['11.70 V', 0],
    ['11.50 V', 0],
  ])('flooded, %s: %s %% (US Army TM 5-3805-262-20, 5-9)', (volts, percent) => {
    expect(charge(volts).measured?.value).toBeCloseTo(percent, 9);
  });

  it.each([
    ['12.80 V', 100],
    ['13.00 V', 100],
  ])('AGM, %s: full (US Army TM 9-6115-730-24, WP 0050)', (volts, percent) => {
    expect(charge(volts, 'agm').measured?.value).toBeCloseTo(percent, 9);
  });

  // Values from memory.
  it.each([
    ['12.60 V', 75],
    ['12.30 V', 50],
    ['12.00 V', 25],
  ])('AGM, %s: %s %%', (volts, percent) => {
    expect(charge(volts, 'agm').measured?.value).toBeCloseTo(percent, 9);
  });

  it('goes straight between the points', () => {
    expect(charge('12.30 V').measured?.value).toBeCloseTo(62.5, 9);
  });

  it('is a band of ± 10 % before the meter adds its own', () => {
    // At the end of the table half of the meter's spread meets no slope, and the table's own ± 10 % remains.
    expect(charge('13.20 V').measured?.expanded).toBeCloseTo(10, 9);
    expect(charge('12.30 V').measured?.expanded).toBeGreaterThan(10);
  });
});

/** Values from memory; one manual gives 9.6 V at about 70 °F for a 15 s load test. */
const crankingTable = [
  ['60.0 °F', 9.5],
  ['50.0 °F', 9.4],
  ['40.0 °F', 9.3],
  ['30.0 °F', 9.1],
  ['20.0 °F', 8.9],
  ['10.0 °F', 8.7],
  ['0.0 °F', 8.5],
] as const;
const crank = `checks:
  - id: cranking
    kind: cranking
    title: Cranking
    of: battery
    temperature: battery-temperature
    in: [cranking]
    weight: look
    basis: {kind: from-memory}
    at-least: [${crankingTable.map(([at, volts]) => `[${at}, ${volts} V]`).join(', ')}]`;

const cranked = (volts: string, temperature: string) =>
  findingOf(
    judge(
      crank,
      `snapshots:
  - {id: start, at: 2026-03-02T06:00, state: cranking, readings: {battery: ${volts}, battery-temperature: ${temperature}}}`,
    ),
    'cranking',
    'battery',
  );

describe('least cranking voltage by temperature', () => {
  it.each(crankingTable)('at %s is %s V', (temperature, volts) => {
    expect(cranked('10.00 V', temperature).limits?.low).toBeCloseTo(volts, 9);
  });

  it('goes straight between the points, and stays at the ends', () => {
    expect(cranked('10.00 V', '45.0 °F').limits?.low).toBeCloseTo(9.35, 9);
    expect(cranked('10.00 V', '-20.0 °F').limits?.low).toBeCloseTo(8.5, 9);
    expect(cranked('10.00 V', '90.0 °F').limits?.low).toBeCloseTo(9.5, 9);
  });

  it('makes 8.9 V out on a warm day and within on a frosty one', () => {
    expect(said(cranked('8.90 V', '60.0 °F'))).toBe('out look');
    expect(said(cranked('8.90 V', '0.0 °F'))).toBe('within look');
  });
});

/** A battery maker's sheet: 0.028 V per cell per 10 °F, which is 5.04 mV per cell per °C. */
const perCellAndDegree = ((0.028 / 10) * 1.8 * 1000).toFixed(2);
const charging = `checks:
  - id: window
    kind: charging-window
    title: Charging window
    of: battery
    temperature: battery-temperature
    in: [running]
    at-temperature: 25 °C
    per-degree-and-cell: ${perCellAndDegree} mV
    cells: 6
    hold-inside: [13.0 V, 15.8 V]
    basis: {kind: from-memory}
    tiers: [{weight: look, at-most: 14.8 V}]`;

describe('charging voltage and battery temperature', () => {
  it.each([
    ['25.0 °C', 14.8],
    ['0.0 °C', 15.556],
    ['77.0 °F', 14.8],
    ['32.0 °F', 15.556],
    ['50.0 °C', 14.044],
  ])(
    '14.8 V at 25 °C is at %s %s V (a battery maker’s sheet: 0.028 V a cell for 10 °F)',
    (temperature, volts) => {
      const sheet = judge(
        charging,
        `vehicle: {name: Shuttle 7, layout: four-corner-air, charging: fixed}
snapshots:
  - {id: idle, at: 2026-03-02T09:00, state: running, readings: {battery: 14.20 V, battery-temperature: ${temperature}}}`,
      );
      expect(findingOf(sheet, 'window', 'battery').limits?.high).toBeCloseTo(volts, 9);
    },
  );
});

/** Two agreeing US Army texts. */
const freezes = [
  ['1.280', -90],
  ['1.250', -62],
  ['1.200', -16],
  ['1.150', 5],
  ['1.100', 19],
] as const;

describe('where the acid freezes', () => {
  // Charge and gravity are set alike here, so that the remark can be asked for one gravity at a time.
  const pack = `${rested}
    freezing:
      specific-gravity: [[0 %, 1.100 %], [25 %, 1.150 %], [50 %, 1.200 %], [75 %, 1.250 %], [100 %, 1.280 %]]
      freezes-at: [${freezes.map(([gravity, fahrenheit]) => `[${gravity} %, ${fahrenheit} °F]`).join(', ')}]
      basis: {kind: from-memory}`;
  const remark = (volts: string, temperature: string) =>
    findingOf(
      judge(
        pack,
        `vehicle: {name: Shuttle 7, layout: four-corner-air, battery: flooded}
snapshots:
  - {id: night, at: 2026-03-02T06:00, state: rest, conditions: {rested: 8 h}, readings: {battery: ${volts}, battery-temperature: ${temperature}}}`,
      ),
      'rested',
      'battery',
    ).remarks.find(({ kind }) => kind === 'may-freeze');

  it.each([
    ['11.70 V', 19],
    ['12.00 V', 5],
    ['12.20 V', -16],
    ['12.40 V', -62],
    ['12.60 V', -90],
  ])('a flooded battery at %s freezes at %s °F', (volts, fahrenheit) => {
    const celsius = convert(fahrenheit, '°F', '°C');
    expect(remark(volts, `${(celsius - 3).toFixed(1)} °C`)).toMatchObject({
      kind: 'may-freeze',
      freezes: expect.closeTo(celsius, 6),
    });
    expect(remark(volts, `${(celsius + 5).toFixed(1)} °C`)).toBeUndefined();
  });

  it('is warmer the flatter the battery', () => {
    const points = freezes.map(([gravity, at]) => [Number(gravity), at] as const).toReversed();
    expect(interpolate(points, 1.225).value).toBeCloseTo(-39, 9);
  });
});
