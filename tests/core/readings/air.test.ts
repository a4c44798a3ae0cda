import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { atTemperature, kelvin, standardPressure } from '../../../src/core/readings/air.ts';

const celsius = fc.integer({ min: -60, max: 90 });

describe('air that is shut in', () => {
  it('comes back to its pressure with its temperature', () => {
    fc.assert(
      fc.property(celsius, celsius, fc.integer({ min: 1, max: 2000 }), (from, to, pressure) => {
        expect(atTemperature(atTemperature(pressure, from, to), to, from)).toBeCloseTo(pressure, 8);
      }),
    );
  });

  it('loses about 7 % over 20 °C', () => {
    expect(1 - atTemperature(1, 20, 0)).toBeCloseTo(20 / kelvin(20), 12);
  });
});

describe('the standard atmosphere', () => {
  it('thins with altitude, and thickens below the sea', () => {
    fc.assert(
      fc.property(fc.integer({ min: -400, max: 10_000 }), (metres) => {
        expect(standardPressure(metres + 100)).toBeLessThan(standardPressure(metres));
      }),
    );
    expect(standardPressure(0)).toBe(101.325);
  });

  it('stays a pressure beyond its layer', () => {
    expect(standardPressure(60_000)).toBeCloseTo(standardPressure(20_000), 12);
  });
});
