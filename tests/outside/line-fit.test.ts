import { describe, expect, it } from 'vitest';
import { fitLine } from '../../src/core/readings/line-fit.ts';

const numbers = (text: string): number[] => text.trim().split(/\s+/u).map(Number);

/** NIST Statistical Reference Datasets, linear regression, set Norris: 36 points. */
const norris = {
  y: numbers(`0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1 778.1 668.8 339.3 448.9 10.8
    557.7 228.3 998.0 888.8 119.6 0.3 0.6 557.6 339.3 888.0 998.5 778.9 10.2 117.6 228.9 668.4 449.2 0.2`),
  x: numbers(`0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6 775.5 666.9 338.0 447.5 11.6
    556.0 228.1 995.8 887.6 120.2 0.3 0.3 556.8 339.1 887.2 999.0 779.0 11.1 118.3 229.2 669.1 448.9 0.5`),
};

/** JCGM 100:2008, example H.3: calibration of a thermometer, fitted about 20 °C. */
const thermometer = {
  t: numbers('21.521 22.012 22.512 23.003 23.507 23.999 24.513 25.002 25.503 26.010 26.511'),
  b: numbers('-0.171 -0.169 -0.166 -0.159 -0.164 -0.165 -0.156 -0.157 -0.159 -0.161 -0.160'),
};

describe('a straight line by least squares', () => {
  it('through NIST StRD Norris has the certified slope, its standard error and the residual deviation', () => {
    expect([norris.x.length, norris.y.length]).toEqual([36, 36]);
    const line = fitLine(norris.x, norris.y);
    expect(line.slope / 1.002_116_818_020_45).toBeCloseTo(1, 12);
    expect((line.slopeError ?? 0) / 0.429_796_848_199_937e-3).toBeCloseTo(1, 10);
    expect(((line.slopeError ?? 0) * Math.sqrt(line.sxx)) / 0.884_796_396_144_373).toBeCloseTo(1, 10);
  });

  it('through the thermometer of JCGM 100:2008, H.3, is −0.1712 + 0.00218 (t − 20), slope ± 0.00067', () => {
    const line = fitLine(
      thermometer.t.map((t) => t - 20),
      thermometer.b,
    );
    expect(line.intercept).toBeCloseTo(-0.1712, 4);
    expect(line.slope).toBeCloseTo(0.002_18, 5);
    expect(line.slopeError).toBeCloseTo(0.000_67, 5);
    expect(line.intercept + line.slope * 10).toBeCloseTo(-0.1494, 4);
  });
});
