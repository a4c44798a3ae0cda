import { describe, expect, it } from 'vitest';
import { atTemperature, seaLevel, standardPressure } from '../../src/core/readings/air.ts';
import { convert } from '../../src/core/readings/units.ts';
import { findingOf, judge } from '../support/judge.ts';

/**
 * Source: OpenStax, College Physics, chapter 13.3, The Ideal Gas Law: its example and problems as printed, to three
 * digits. The straight line that the rate is fitted with is held to NIST StRD Norris and JCGM 100:2008, H.3, in
 * line-fit.test.ts.
 */
describe('air at constant volume against OpenStax College Physics, 13.3', () => {
  it('7.00e5 Pa absolute from 18.0 to 35.0 °C is 7.41e5 Pa', () => {
    expect(atTemperature(7.0e5, 18.0, 35.0) / 1e5).toBeCloseTo(7.41, 2);
  });

  it('2.50e5 Pa gauge from 35.0 to −40.0 °C is 1.62 atm gauge, 1.645e5 Pa (problem 22)', () => {
    const local = seaLevel * 1000;
    const gauge = atTemperature(2.5e5 + local, 35.0, -40.0) - local;
    expect(gauge / 1e5).toBeCloseTo(1.645, 3);
    expect(convert(gauge, 'Pa', 'atm')).toBeCloseTo(1.62, 2);
  });

  it('1.40e7 Pa absolute from 25.0 to −78.5 °C is 9.14e6 Pa; with a tenth of the gas lost 8.23e6 Pa', () => {
    const cold = atTemperature(1.4e7, 25.0, -78.5);
    expect(cold / 1e6).toBeCloseTo(9.14, 2);
    expect((0.9 * cold) / 1e6).toBeCloseTo(8.23, 2);
  });
});

describe('the standard atmosphere against US Standard Atmosphere 1976', () => {
  /** The printed 12.23 psia was seen in one secondary text, and computed again from the model's equations. */
  it('5000 ft is 12.23 psia', () => {
    expect(Math.abs(convert(standardPressure(convert(5000, 'ft', 'm')), 'kPa', 'psi') - 12.23)).toBeLessThan(
      0.005,
    );
  });
});

/** The same figures through the check itself: what the book says the gauge shows is no loss, and a loss is one. */
describe('leak-down against the same problems', () => {
  const pack = `channels:
  - {id: tank, title: tank pressure, quantity: pressure, unit: kPa, by: gauge, depends: [compressor]}
checks:
  - {id: leak, kind: leak-down, title: Leak-down, of: tank, in: [rest], basis: {kind: from-memory}, tiers: [{weight: look, at-most: 20 kPa/h}]}`;
  const lossOf = (...shots: [time: string, kPa: number, air: number][]): number => {
    const snapshots = shots.map(
      ([time, kPa, air], place) =>
        `  - {id: "t${place}", at: "2026-03-02T${time}:00", state: rest, conditions: {air-system: closed, air: ${air} °C}, readings: {tank: ${kPa} kPa}}`,
    );
    const { measured } = findingOf(judge(pack, `snapshots:\n${snapshots.join('\n')}`), 'leak', 'tank');
    return measured?.value ?? Number.NaN;
  };

  it('a tyre of 2.50e5 Pa at 35.0 °C that shows 1.645e5 Pa at −40.0 °C has lost nothing', () => {
    expect(lossOf(['08:00', 250, 35.0], ['09:00', 250, 35.0], ['10:00', 164.5, -40.0])).toBeCloseTo(0, 1);
  });

  it('a bottle of 1.40e7 Pa absolute that shows 8.23e6 Pa at −78.5 °C has lost a tenth', () => {
    const gauge = (absolute: number): number => absolute / 1000 - seaLevel;
    const perHour = lossOf(
      ['08:00', gauge(1.4e7), 25.0],
      ['09:00', gauge(1.4e7), 25.0],
      // Twice: no vehicle has such a pressure, and a reading that cannot be is believed once another says the same.
      ['10:00', gauge(8.23e6), -78.5],
      ['10:00', gauge(8.23e6), -78.5],
    );
    // Of four points the last two bear 6/11 of the slope.
    expect((perHour * 11) / 6 / 1.4e4).toBeCloseTo(0.1, 3);
  });
});
