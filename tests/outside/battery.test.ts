import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { findingOf, judge, said } from '../support/judge.ts';
import { projectRoot } from '../support/run.ts';

/** The shipped pack, under the name that the findings of a test are looked up by. */
const shipped = readFileSync(join(projectRoot, 'rules/supply-charging/1.0.0.yaml'), 'utf8').replace(
  /^pack: .*$/mu,
  'pack: bench',
);

/**
 * Flooded: US Army TM 5-3805-262-20, paragraph 5-9. AGM full: US Army TM 9-6115-730-24, work package 0050; the AGM
 * steps below full are values from memory.
 */
const charge = (volts: string, battery = 'flooded') =>
  findingOf(
    judge(
      shipped,
      `vehicle: {name: Shuttle 7, layout: four-corner-air, system: 12 V, battery: ${battery}}
snapshots:
  - {id: night, at: 2026-03-02T06:00, state: rest, conditions: {rested: 8 h}, readings: {battery: ${volts}}}`,
    ),
    'rested-battery',
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

const cranked = (volts: string, temperature: string) =>
  findingOf(
    judge(
      shipped,
      `vehicle: {name: Shuttle 7, layout: four-corner-air, system: 12 V}
snapshots:
  - {id: start, at: 2026-03-02T06:00, state: cranking, readings: {battery: ${volts}, battery-temperature: ${temperature}}}`,
    ),
    'cranking',
    'battery',
  );

describe('least cranking voltage by temperature', () => {
  // Values from memory; one manual gives 9.6 V at about 70 °F for a 15 s load test.
  it.each([
    ['70.0 °F', 9.6],
    ['60.0 °F', 9.5],
    ['50.0 °F', 9.4],
    ['40.0 °F', 9.3],
    ['30.0 °F', 9.1],
    ['20.0 °F', 8.9],
    ['10.0 °F', 8.7],
    ['0.0 °F', 8.5],
  ])('at %s is %s V', (temperature, volts) => {
    expect(cranked('10.00 V', temperature).limits?.low).toBeCloseTo(volts, 9);
  });

  it('goes straight between the points, and stays at the ends', () => {
    expect(cranked('10.00 V', '45.0 °F').limits?.low).toBeCloseTo(9.35, 9);
    expect(cranked('10.00 V', '-20.0 °F').limits?.low).toBeCloseTo(8.5, 9);
    expect(cranked('10.00 V', '90.0 °F').limits?.low).toBeCloseTo(9.6, 9);
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

/**
 * Two agreeing US Army texts: acid of 1.100 freezes at 19 °F, 1.150 at 5, 1.200 at −16, 1.250 at −62, 1.280 at −90.
 * Gravity by state of charge is from memory: 1.120, 1.155, 1.190, 1.225 and 1.265 from flat to full. The points below
 * were worked out by hand, straight between those.
 */
describe('where the acid freezes', () => {
  const remark = (volts: string, temperature: string) =>
    findingOf(
      judge(
        shipped,
        `vehicle: {name: Shuttle 7, layout: four-corner-air, system: 12 V, battery: flooded}
snapshots:
  - {id: night, at: 2026-03-02T06:00, state: rest, conditions: {rested: 8 h}, readings: {battery: ${volts}, battery-temperature: ${temperature}}}`,
      ),
      'rested-battery',
      'battery',
    ).remarks.find(({ kind }) => kind === 'may-freeze');

  it.each([
    ['11.70 V', 13.4],
    ['12.00 V', 2.9],
    ['12.20 V', -11.8],
    ['12.40 V', -39],
    ['12.60 V', -76],
  ])('a flooded battery at %s freezes at %s °F', (volts, fahrenheit) => {
    const celsius = (fahrenheit - 32) / 1.8;
    expect(remark(volts, `${(celsius - 3).toFixed(1)} °C`)).toMatchObject({
      kind: 'may-freeze',
      freezes: expect.closeTo(celsius, 6),
    });
    expect(remark(volts, `${(celsius + 5).toFixed(1)} °C`)).toBeUndefined();
  });
});
