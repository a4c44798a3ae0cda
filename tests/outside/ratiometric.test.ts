import { describe, expect, it } from 'vitest';
import { findingOf, judge, keyOn } from '../support/judge.ts';

const pack = `checks:
  - {id: share, kind: ratio, title: Share of the reference, of: plug-signal, to: reference, in: [key-on], basis: {kind: from-memory},
     tiers: [{weight: look, between: [10 %, 90 %]}]}`;

const share = (signal: string, reference: string): number => {
  const sheet = judge(pack, keyOn(`{plug-signal: {LF: ${signal}}, reference: ${reference}}`));
  return findingOf(sheet, 'share', 'LF').measured?.value ?? Number.NaN;
};

describe('a ratiometric sensor', () => {
  it('at 2.40 V on a reference of 4.80 V sits at half its travel, where a fixed 5 V would say 0.48', () => {
    expect(share('2.40 V', '4.80 V')).toBeCloseTo(50, 10);
    expect(share('2.40 V', '5.00 V')).toBeCloseTo(48, 10);
  });

  // A chip maker's data sheet, DRV5055-Q1, ratiometric output: supply and output rise together.
  it('gives 5 % more on a supply of 5.25 V, and its share stays', () => {
    expect(share('2.500 V', '5.00 V')).toBeCloseTo(50, 10);
    expect(share('2.625 V', '5.25 V')).toBeCloseTo(50, 10);
    // Against a fixed 5 V the same output would read 5 % too high.
    expect(share('2.625 V', '5.00 V')).toBeCloseTo(52.5, 10);
  });
});
