import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { gaugeArea, gaugeDiameter, wireDrop, wireResistance } from '../../src/core/readings/wire.ts';

const feetToMetres = (feet: number): number => unit(feet, 'ft').toNumber('m');
const perThousandFeet = (gauge: number, celsius: number): number =>
  wireResistance(gaugeArea(gauge), feetToMetres(1000), celsius);

describe('copper wire by American gauge', () => {
  // ASTM B258: 36 AWG is 0.005 in and 4/0 AWG is 0.46 in, with 39 equal ratios between them.
  it('has the diameters that define the series', () => {
    expect(gaugeDiameter(36)).toBeCloseTo(0.005 * 25.4, 12);
    expect(gaugeDiameter(-3)).toBeCloseTo(0.46 * 25.4, 10);
    expect(gaugeDiameter(10) / gaugeDiameter(11)).toBeCloseTo(92 ** (1 / 39), 12);
  });

  // ASTM B258 with the standard resistivity, as widely tabulated; seen in two agreeing transcriptions.
  it.each([
    [12, 1.588],
    [14, 2.525],
    [16, 4.016],
    [18, 6.385],
    [20, 10.15],
    [22, 16.14],
  ])('%s AWG has %s Ω per 1000 ft at 20 °C', (gauge, ohms) => {
    expect(perThousandFeet(gauge, 20) / ohms).toBeCloseTo(1, 3);
  });

  // NFPA 70, chapter 9, table 8, direct current at 75 °C, solid uncoated copper; good to 0.5 %.
  it.each([
    [18, 7.77],
    [16, 4.89],
    [14, 3.07],
    [12, 1.93],
    [10, 1.21],
  ])('%s AWG solid has %s Ω per 1000 ft at 75 °C', (gauge, ohms) => {
    expect(Math.abs(perThousandFeet(gauge, 75) / ohms - 1)).toBeLessThan(0.005);
  });

  // NFPA 70, chapter 9, table 8: 16 AWG stranded, 4.99 Ω per 1000 ft; the worked example prints 4.0 V.
  it('100 ft one way of 16 AWG stranded at 4 A drop 3.992 V there and back', () => {
    const area = wireResistance(1, feetToMetres(1000), 75) / 4.99;
    const typed = (value: number) => ({ value, resolution: 0, text: '' });
    const { volts } = wireDrop({
      area,
      length: typed(feetToMetres(200)),
      current: typed(4),
      celsius: 75,
    });
    expect(volts).toBeCloseTo(3.992, 10);
  });
});
