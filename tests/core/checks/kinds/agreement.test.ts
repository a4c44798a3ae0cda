import { describe, expect, it } from 'vitest';
import { findingOf, judge, keyOn, packProblems, said } from '../../../support/judge.ts';

const pack = `checks:
  - id: meters
    kind: agreement
    title: Module against meter
    of: supply
    against: battery
    in: [key-on, running]
    unless: {maintainer: on}
    basis: {kind: common-practice}
    tiers:
      - {weight: hold, between: [-1.2 V, 0.2 V], in: [key-on], says: {high: no wire adds volts}}
      - {weight: look, at-least: -0.5 V, in: [key-on]}
      - {weight: hold, between: [-1.2 V, 1.0 V], in: [running]}`;

const at = (readings: string, more = '') => findingOf(judge(pack, keyOn(readings, more)), 'meters', 'supply');

describe('agreement', () => {
  it('fires where the module shows more than the meter can explain', () => {
    expect(at('{supply: 12.90 V, battery: 12.40 V}')).toMatchObject({
      verdict: 'out',
      weight: 'hold',
      side: 'high',
      words: 'no wire adds volts',
      measured: { value: expect.closeTo(0.5, 10), unit: 'V' },
      channels: ['supply', 'battery'],
    });
  });

  it('is silent where they agree, and where the loss is small', () => {
    // Of the limits that it keeps, the nearest is told.
    expect(said(at('{supply: 12.38 V, battery: 12.40 V}'))).toBe('within hold');
    expect(said(at('{supply: 12.10 V, battery: 12.40 V}'))).toBe('within look');
  });

  it('is too close where both meters leave it open, and says what settles it', () => {
    const finding = at('{supply: 12.60 V, battery: 12.40 V}');
    expect(said(finding)).toBe('too-close hold');
    expect(finding.settle).not.toBeNull();
  });

  it('keeps the limits of its state', () => {
    const sheet = judge(
      pack,
      'snapshots: [{id: idle, at: 2026-03-02T09:00, state: running, readings: {supply: 14.70 V, battery: 14.20 V}}]',
    );
    expect(said(findingOf(sheet, 'meters', 'supply'))).toBe('within hold');
  });

  it('is not taken without one of the two, and names the one', () => {
    expect(at('{supply: 12.40 V}').missing).toMatchObject({ why: 'no-reading', channels: ['battery'] });
    expect(at('{}').missing).toMatchObject({ why: 'no-reading', channels: ['supply', 'battery'] });
    expect(at('{supply: 12.40 V, battery: {low: 11 V, high: 12 V}}').missing).toEqual({
      why: 'jumping',
      channel: 'battery',
    });
  });

  it('is not taken with a maintainer on', () => {
    const finding = at('{supply: 12.90 V, battery: 12.40 V}', '    conditions: {maintainer: on}');
    expect(finding.missing).toMatchObject({ why: 'condition-differs', condition: 'maintainer' });
  });

  it('cancels a common offset where one meter read both', () => {
    const finding = at('{supply: {value: 12.90 V, by: meter}, battery: 12.40 V}');
    const gain = (0.005 * 0.5) / Math.sqrt(3);
    expect(finding.measured?.expanded).toBeCloseTo(2 * Math.hypot(gain, 0.01 / Math.sqrt(6)), 12);
  });

  it('goes by the mean of repeats', () => {
    const finding = at('{supply: [12.55 V, 12.75 V, 12.95 V], battery: 12.40 V}');
    expect(finding.measured?.value).toBeCloseTo(0.35, 10);
    expect(finding.verdict).toBe('too-close');
    expect(finding.settle).toEqual({ how: 'repeat', times: 16 });
  });

  it('compares corner by corner where the channels are read there', () => {
    const wires = `checks:
  - {id: wire, kind: agreement, title: Shown against plug, of: position, against: plug-signal, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, between: [-0.3 V, 0.3 V]}]}`;
    const sheet = judge(
      wires,
      keyOn('{position: {LF: 2.50 V, RR: 0.10 V}, plug-signal: {LF: 2.48 V, RR: 2.40 V}}'),
    );
    expect(said(findingOf(sheet, 'wire', 'LF'))).toBe('within look');
    expect(said(findingOf(sheet, 'wire', 'RR'))).toBe('out look');
  });

  it('compares channels of one unit only', () => {
    expect(packProblems(pack.replace('against: battery', 'against: tank'))).toContain('wrong-unit');
  });
});
