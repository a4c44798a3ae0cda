import { std, mean as theirMean } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { combine, estimate } from '../../src/core/readings/estimate.ts';
import type { Instrument, OffsetKind } from '../../src/core/readings/instruments.ts';
import { normalCdf } from '../../src/core/readings/normal.ts';
import {
  mean,
  rectangular,
  resolutionUncertainty,
  standardDeviation,
} from '../../src/core/readings/statistics.ts';
import { judge } from '../../src/core/readings/verdict.ts';

/** NIST Statistical Reference Datasets, univariate summary statistics, set Mavro: 50 values. */
const mavro = [
  2.0018, 2.0017, 2.0018, 2.0019, 2.0018, 2.0017, 2.0015, 2.0014, 2.0015, 2.0015, 2.0017, 2.0018, 2.0018,
  2.0019, 2.0019, 2.0021, 2.002, 2.0016, 2.0014, 2.0013, 2.0013, 2.0015, 2.0015, 2.0016, 2.0015, 2.0014,
  2.0013, 2.0014, 2.0015, 2.0014, 2.0015, 2.0016, 2.0015, 2.0016, 2.0019, 2.002, 2.002, 2.0021, 2.0022,
  2.0023, 2.0024, 2.0025, 2.0027, 2.0026, 2.0026, 2.0026, 2.0027, 2.0026, 2.0025, 2.0024,
];
/** The same collection, set NumAcc1: three values whose difference is in the eighth digit. */
const numAcc1 = [10_000_001, 10_000_003, 10_000_002];

describe('standard uncertainties', () => {
  it('of a half-width of 1.5 is 0.866 (Eurachem/CITAC Guide CG 4, appendix E.1, prints 0.87)', () => {
    expect(rectangular(1.5)).toBeCloseTo(0.866, 3);
  });

  it('of a last digit of place value 1 is 0.288 675 (JCGM 100:2008, F.2.2.1)', () => {
    expect(resolutionUncertainty(1)).toBeCloseTo(0.288_675, 6);
  });

  // Value from memory, recomputed.
  it('of a half-width of 0.40e-6 is 0.2309e-6 (JCGM 100:2008, 4.3.7, gives 0.23e-6)', () => {
    expect(rectangular(0.4e-6) * 1e6).toBeCloseTo(0.2309, 4);
  });
});

describe('mean and standard deviation', () => {
  it('of NIST StRD Mavro are certified as 2.00185600000000 and 0.000429123454003053', () => {
    expect(mavro).toHaveLength(50);
    expect(mean(mavro)).toBeCloseTo(2.001856, 14);
    expect(standardDeviation(mavro) / 0.000_429_123_454_003_053).toBeCloseTo(1, 11);
  });

  it('of NIST StRD NumAcc1 are certified as 10000002 and 1', () => {
    expect(mean(numAcc1)).toBe(10_000_002);
    expect(standardDeviation(numAcc1)).toBe(1);
  });

  it.each([
    ['Mavro', mavro],
    ['NumAcc1', numAcc1],
    ['three readings of one sensor', [2.48, 2.5, 2.49]],
  ])('of %s agree with a general-purpose library', (_, values) => {
    expect(mean(values) / theirMean(values)).toBeCloseTo(1, 13);
    expect(standardDeviation(values) / Number(std(values))).toBeCloseTo(1, 9);
  });
});

describe('normal coverage factors', () => {
  it.each([
    [0.95, 1.96],
    [0.99, 2.576],
  ])('a level of confidence of %s has the factor %s (NIST Technical Note 1297, 4.3–4.4)', (level, factor) => {
    const covered = (k: number): number => normalCdf(k) - normalCdf(-k);
    expect(covered(factor - 0.0005)).toBeLessThan(level);
    expect(covered(factor + 0.0005)).toBeGreaterThan(level);
  });
});

/**
 * JCGM 100:2008, 5.1.2 for independent inputs and 5.2.2 for correlated ones, example 1 there: with one common error the
 * uncertainties of a difference cancel, and independent ones add in squares. Figures recomputed by hand:
 * 2·√(2·0.05²/3 + 2·0.01²/12) and 2·√(2·0.01²/12).
 */
describe('the difference of two signals through one module of ± 0.05 V, against a limit of 0.5 V', () => {
  const difference = (offset: OffsetKind) => {
    const module: Instrument = {
      name: 'module',
      accuracy: [{ quantity: 'voltage', gain: 0, fixed: 0.05, unit: 'V' }],
      shows: null,
      offset,
    };
    const read = (value: number, channel: string) =>
      estimate([{ value, resolution: 0.01, text: `${value} V` }], 'V', module, channel);
    const left = read(2.99, 'position.LF');
    const right = read(2.5, 'position.RF');
    const { total } = combine([
      { estimate: left, sensitivity: 1 },
      { estimate: right, sensitivity: -1 },
    ]);
    const limits = { low: -0.5, high: 0.5 };
    const { verdict } = judge(left.value - right.value, 2 * total, limits);
    return { expanded: 2 * total, verdict };
  };

  it('0.49 V is too close where each channel has its own offset: U = 0.082 V', () => {
    expect(difference('independent')).toEqual({ expanded: expect.closeTo(0.082, 3), verdict: 'too-close' });
  });

  it('0.49 V is within where both share one: U = 0.0082 V', () => {
    expect(difference('common')).toEqual({ expanded: expect.closeTo(0.0082, 4), verdict: 'within' });
  });
});
