import { describe, expect, it } from 'vitest';
import { findingOf, judge, keyOn, said } from '../../../support/judge.ts';

const pack = `checks:
  - {id: pair, kind: pair-share, title: Spring pair, of: spring, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, between: [-20 %, 20 %]}]}`;
const at = (readings: string, axle = 'rear') =>
  findingOf(judge(pack, keyOn(`{spring: ${readings}}`)), 'pair', axle);

describe('pair share', () => {
  it('is the difference as a share of the mean', () => {
    expect(at('{LR: 110 psi, RR: 90 psi}').measured).toMatchObject({ value: 20, unit: '%' });
    expect(at('{LR: 60 psi, RR: 100 psi}').measured?.value).toBeCloseTo(-50, 10);
  });

  it('fires beyond a fifth, is silent below it, and is too close at it', () => {
    expect(said(at('{LR: 60 psi, RR: 100 psi}'))).toBe('out look');
    expect(said(at('{LR: 95 psi, RR: 100 psi}'))).toBe('within look');
    expect(said(at('{LR: 110 psi, RR: 90 psi}'))).toBe('too-close look');
  });

  it('propagates the resolution of both; the gauge’s own zero stays as first order leaves it', () => {
    const { measured } = at('{LR: 100 psi, RR: 100 psi}');
    const each = 400 * (100 / 200 ** 2);
    expect(measured?.expanded).toBeCloseTo(2 * Math.SQRT2 * each * (1 / Math.sqrt(12)), 10);
  });

  it('is not taken on springs without pressure', () => {
    expect(at('{LR: 2 psi, RR: 1 psi}').missing).toEqual({
      why: 'reference-near-zero',
      channel: 'spring.LR',
    });
  });

  it('is not taken without one of the two', () => {
    expect(at('{LR: 60 psi}').missing).toMatchObject({ why: 'no-reading', channels: ['spring.RR'] });
  });
});
