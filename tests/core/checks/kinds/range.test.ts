import { describe, expect, it } from 'vitest';
import { findingOf, judge, keyOn, packProblems, said } from '../../../support/judge.ts';

const rails = `checks:
  - {id: rails, kind: range, title: Clear of both rails, of: position, in: [key-on, running], basis: {kind: common-practice},
     tiers: [{weight: hold, between: [0.25 V, 4.75 V]}], says: {low: pinned low, high: pinned high, within: clear}}`;

const at = (reading: string, pack = rails) =>
  findingOf(judge(pack, keyOn(`{position: {LF: ${reading}}}`)), 'rails', 'LF');

describe('range', () => {
  it.each([
    ['0.10 V', 'out hold', 'low'],
    ['0.19 V', 'out hold', 'low'],
    ['0.20 V', 'too-close hold', 'low'],
    ['0.25 V', 'too-close hold', 'low'],
    ['0.30 V', 'too-close hold', 'low'],
    ['0.31 V', 'within hold', null],
    ['4.69 V', 'within hold', null],
    ['4.70 V', 'too-close hold', 'high'],
    ['4.81 V', 'out hold', 'high'],
  ])('says of %s, good to ± 0.06 V: %s', (reading, expected, side) => {
    const finding = at(reading);
    expect(said(finding)).toBe(expected);
    expect(finding.side).toBe(side);
  });

  it('gives value, uncertainty, limits and the share inside', () => {
    const finding = at('2.48 V');
    expect(finding.measured).toEqual({
      value: 2.48,
      unit: 'V',
      expanded: expect.closeTo(2 * Math.hypot(0.05 / Math.sqrt(3), 0.01 / Math.sqrt(12)), 12),
    });
    expect(finding.limits).toEqual({ low: 0.25, high: 4.75 });
    expect(finding.inside).toBeCloseTo(1, 12);
    expect(finding.basis).toEqual({ kind: 'common-practice', source: null });
    expect(finding.channels).toEqual(['position.LF']);
    expect(finding.id).toBe('bench/rails:LF@as-found');
  });

  it.each([
    ['0.10 V', 'pinned low'],
    ['4.90 V', 'pinned high'],
    ['2.50 V', 'clear'],
  ])('has the words of its side for %s: %s', (reading, words) => {
    expect(at(reading).words).toBe(words);
  });

  it('says what would settle a too-close reading', () => {
    expect(at('0.28 V').settle).toMatchObject({ how: 'better-instrument' });
    expect(at('2.48 V').settle).toBeNull();
  });

  it('compares the bare value where the check decides simply, and is silent right at the limit', () => {
    const simple = rails.replace('in: [key-on', 'decision: simple, in: [key-on');
    expect(said(at('0.25 V', simple))).toBe('within hold');
    expect(said(at('0.24 V', simple))).toBe('out hold');
  });

  it('judges one finding a fitted corner', () => {
    const body = keyOn('{position: {LF: 2.48 V, RF: 2.50 V, LR: 2.40 V, RR: 2.45 V}}');
    const subjects = (vehicle: string) =>
      judge(rails, `${vehicle}\n${body}`).findings.map(({ subject }) => subject);
    expect(subjects('vehicle: {name: Shuttle 7, layout: four-corner-air}')).toEqual(['LF', 'RF', 'LR', 'RR']);
    expect(subjects('vehicle: {name: Shuttle 9, layout: rear-air-assist}')).toEqual(['LR', 'RR']);
    expect(subjects('vehicle: {name: Shuttle 9, layout: four-corner-air, fitted: [RR, LF]}')).toEqual([
      'LF',
      'RR',
    ]);
  });

  it('judges several channels, the vehicle’s by their own names', () => {
    const ceiling = `checks:
  - {id: ceiling, kind: range, title: Ceiling, of: [supply, battery], in: [key-on], basis: {kind: from-memory}, tiers: [{weight: hold, at-most: 16 V}]}`;
    const sheet = judge(ceiling, keyOn('{supply: 16.80 V, battery: 12.60 V}'));
    expect(said(findingOf(sheet, 'ceiling', 'supply'))).toBe('out hold');
    expect(said(findingOf(sheet, 'ceiling', 'battery'))).toBe('within hold');
  });

  it('judges a channel of either form at the corners where it was read, or once', () => {
    const reference = `checks:
  - {id: reference, kind: range, title: Reference, of: reference, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, between: [4.9 V, 5.1 V]}]}`;
    const subjects = (readings: string) =>
      judge(reference, keyOn(readings)).findings.map(({ subject, verdict }) => `${subject} ${verdict}`);
    expect(subjects('{reference: 5.01 V}')).toEqual(['reference within']);
    expect(subjects('{reference: {LF: 5.01 V, RR: 4.60 V}}')).toEqual(['LF within', 'RR out']);
    expect(subjects('{}')).toEqual(['reference not-taken']);
  });

  it('reads limits and readings in any unit of the quantity', () => {
    const tank = `checks:
  - {id: tank, kind: range, title: Tank, of: tank, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, between: [6.2 bar, 13.8 bar]}]}`;
    const finding = findingOf(judge(tank, keyOn('{tank: 5.00 bar}')), 'tank', 'tank');
    expect(said(finding)).toBe('out look');
    expect(finding.measured).toMatchObject({ value: expect.closeTo(72.52, 2), unit: 'psi' });
    expect(finding.limits?.low).toBeCloseTo(89.92, 2);
  });
});

describe('range of a signal that jumps', () => {
  const two =
    (tiers: string, more = '') =>
    (reading: string) =>
      findingOf(
        judge(
          `checks: [{id: band, kind: range, title: Band, of: position, in: [key-on], basis: {kind: from-memory}, tiers: ${tiers}}]`,
          `vehicle: {name: Shuttle 7, layout: four-corner-air${more}}\n${keyOn(`{position: {LF: ${reading}}}`)}`,
        ),
        'band',
        'LF',
      );

  it('goes by the end that comes nearer to a limit', () => {
    const band = two('[{weight: look, between: [0.5 V, 4.5 V]}]');
    expect(band('{low: 0.20 V, high: 2.60 V}')).toMatchObject({ verdict: 'out', side: 'low' });
    expect(band('{low: 0.90 V, high: 4.80 V}')).toMatchObject({ verdict: 'out', side: 'high' });
    expect(band('{low: 0.90 V, high: 2.60 V}')).toMatchObject({
      verdict: 'within',
      measured: { value: 0.9 },
    });
  });

  it('goes by the end with the heavier verdict, though the other is further beyond a lighter limit', () => {
    const band = two('[{weight: hold, at-least: 0.3 V}, {weight: look, between: [0.5 V, 4.0 V]}]');
    expect(said(band('{low: 0.20 V, high: 4.90 V}'))).toBe('out hold');
  });

  it('goes by the vehicle’s own figures where there are some', () => {
    const own =
      ', service-data: [{check: bench/band, of: LF, between: [0.1 V, 2.0 V], source: workshop manual}]';
    const band = two('[{weight: look, between: [1.25 V, 3.75 V]}]', own);
    expect(band('{low: 0.90 V, high: 2.60 V}')).toMatchObject({ verdict: 'out', side: 'high' });
  });
});

describe('a range that makes no sense', () => {
  const check = (more: string) =>
    packProblems(
      `checks: [{id: x, kind: range, title: X, in: [key-on], basis: {kind: from-memory}, ${more}}]`,
    );

  it.each([
    ['of: position, tiers: [{weight: hold, between: [4.75 V, 0.25 V]}]', 'wrong-value'],
    ['of: position, tiers: [{weight: hold}]', 'missing-key'],
    ['of: position, tiers: [{weight: hold, at-least: 3 psi}]', 'wrong-unit'],
    ['of: positoin, tiers: [{weight: hold, at-least: 3 V}]', 'unknown-channel'],
    ['tiers: [{weight: hold, at-least: 3 V}]', 'missing-key'],
    ['of: position, tiers: []', 'wrong-value'],
  ])('%s: %s', (more, code) => {
    expect(check(more)).toContain(code);
  });

  it('a published basis names its title, issuer and clause', () => {
    const basis = (text: string) =>
      packProblems(
        `checks: [{id: x, kind: range, title: X, in: [key-on], of: position, tiers: [{weight: hold, at-least: 3 V}], basis: ${text}}]`,
      );
    expect(basis('{kind: published, title: Road vehicles, issuer: ISO, clause: table 1}')).toEqual([]);
    expect(basis('{kind: published, title: Road vehicles}')).toContain('missing-key');
  });
});
