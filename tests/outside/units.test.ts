import { unit as reference } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { convert, type UnitName } from '../../src/core/readings/units.ts';

/** Source: NIST Special Publication 811 (2008), appendix B.8, factors as printed. */
describe('units against NIST SP 811', () => {
  it.each<[UnitName, number, UnitName]>([
    ['psi', 6.894_757_293_168, 'kPa'],
    ['bar', 100, 'kPa'],
    ['atm', 101.325, 'kPa'],
    ['inHg', 3.386_389, 'kPa'],
    ['lbf', 4.448_221_615_260_5, 'N'],
    ['in', 25.4, 'mm'],
  ])('1 %s is %s %s', (from, factor, to) => {
    expect(convert(1, from, to)).toBeCloseTo(factor, 12);
  });

  it.each([
    [32, 0],
    [212, 100],
    [-40, -40],
    [98.6, 37],
  ])('%s °F is %s °C: t/°C = (t/°F − 32)/1.8', (fahrenheit, celsius) => {
    expect(convert(fahrenheit, '°F', '°C')).toBeCloseTo(celsius, 12);
  });

  it('K is °C + 273.15', () => {
    expect(convert(0, '°C', 'K')).toBeCloseTo(273.15, 12);
    expect(convert(295.37, 'K', '°C')).toBeCloseTo(22.22, 12);
  });
});

/** The same factors by mathjs, a general-purpose library with tables of its own; its psi is good to ten digits. */
describe('units against a general-purpose library', () => {
  it.each<[UnitName, string, UnitName, string]>([
    ['psi', 'psi', 'kPa', 'kPa'],
    ['bar', 'bar', 'psi', 'psi'],
    ['atm', 'atm', 'kPa', 'kPa'],
    ['lbf', 'lbf', 'N', 'N'],
    ['in', 'inch', 'mm', 'mm'],
    ['ft', 'ft', 'm', 'm'],
    ['mi', 'mile', 'km', 'km'],
    ['°F', 'degF', '°C', 'degC'],
    ['K', 'K', '°F', 'degF'],
    ['mV', 'mV', 'V', 'V'],
    ['h', 'hour', 'min', 'minute'],
    ['d', 'day', 'h', 'hour'],
    ['l', 'litre', 'ml', 'millilitre'],
  ])('%s to %s', (from, theirFrom, to, theirTo) => {
    const theirs = reference(37.5, theirFrom).toNumber(theirTo);
    expect(convert(37.5, from, to) / theirs).toBeCloseTo(1, 9);
  });
});
