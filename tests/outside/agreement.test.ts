import { describe, expect, it } from 'vitest';
import { findingOf, judge, keyOn, said } from '../support/judge.ts';

const pack = `checks:
  - {id: two-meters, kind: agreement, title: Module against meter, of: supply, against: battery, in: [key-on], basis: {kind: from-memory},
     tiers: [{weight: hold, between: [-1.2 V, 0.2 V]}, {weight: look, between: [-0.5 V, 0.2 V]}]}`;

const difference = (supply: string, battery: string) =>
  findingOf(
    judge(
      pack,
      `instruments: {meter: {accuracy: 0.5 % + 0.02 V}, module: {accuracy: 0.05 V}}
${keyOn(`{supply: ${supply}, battery: ${battery}}`)}`,
    ),
    'two-meters',
    'supply',
  );

describe('two instruments on one quantity', () => {
  // JCGM 100:2008, 5.1.2: independent inputs, u_d² = u_x² + u_y², each from accuracy a/√3 and resolution d/√12.
  it('differ with the root sum of squares of their uncertainties', () => {
    const { measured } = difference('12.20 V', '12.31 V');
    const module = Math.hypot(0.05 / Math.sqrt(3), 0.01 / Math.sqrt(12));
    const meter = Math.hypot((0.005 * 12.31 + 0.02) / Math.sqrt(3), 0.01 / Math.sqrt(12));
    expect(measured?.value).toBeCloseTo(-0.11, 10);
    expect(measured?.expanded).toBeCloseTo(2 * Math.hypot(module, meter), 12);
  });

  it('meet limits that differ by sign: 0.4 V too high is out, 0.3 V too low is within', () => {
    expect(said(difference('12.71 V', '12.31 V'))).toBe('out hold');
    expect(said(difference('12.01 V', '12.31 V'))).toBe('within look');
  });

  it('meet the look tier below −0.5 V and the hold tier below −1.2 V', () => {
    expect(said(difference('11.51 V', '12.31 V'))).toBe('out look');
    expect(said(difference('10.91 V', '12.31 V'))).toBe('out hold');
  });
});
