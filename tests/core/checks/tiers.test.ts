import { describe, expect, it } from 'vitest';
import { normalCdf } from '../../../src/core/readings/normal.ts';
import { findingOf, judge, keyOn, said } from '../../support/judge.ts';

const supply = `checks:
  - id: supply
    kind: range
    title: Supply
    of: supply
    in: [key-on, running]
    basis: {kind: common-practice}
    tiers:
      - {weight: look, at-least: 11.8 V, says: {low: lowish}}
      - {weight: hold, at-least: 11.5 V, says: {low: too low}, basis: {kind: from-memory, note: a guess}}`;

const at = (reading: string, more = '', pack = supply) =>
  findingOf(
    judge(
      pack,
      `vehicle: {name: Shuttle 7, layout: four-corner-air${more}}\n${keyOn(`{supply: ${reading}}`)}`,
    ),
    'supply',
    'supply',
  );

describe('tiers', () => {
  it.each([
    ['11.30 V', 'out hold', 11.5, 'too low'],
    // Out against look, too close to hold: the heaviest that is out speaks.
    ['11.53 V', 'out look', 11.8, 'lowish'],
    ['11.65 V', 'out look', 11.8, 'lowish'],
    ['11.80 V', 'too-close look', 11.8, 'lowish'],
    ['11.90 V', 'within look', 11.8, null],
  ])('%s: %s, against %s V', (reading, expected, limit, words) => {
    const finding = at(reading);
    expect(said(finding)).toBe(expected);
    expect(finding.limits?.low).toBe(limit);
    expect(finding.words).toBe(words);
  });

  it('are taken by weight, whatever their order in the pack', () => {
    const turned = supply.replace(/( {6}- \{weight: look.*)\n( {6}- \{weight: hold.*)$/u, '$2\n$1');
    expect(turned).not.toBe(supply);
    for (const reading of ['11.30 V', '11.53 V', '11.90 V'])
      expect(said(at(reading, '', turned))).toBe(said(at(reading)));
  });

  it('say too close of the heaviest that is so where none is out', () => {
    const wide = supply.replace('at-least: 11.8 V', 'at-least: 11.52 V');
    expect(said(at('11.52 V', '', wide))).toBe('too-close hold');
  });

  it('are all told, each with its weight, its limits and the chance of being inside', () => {
    // The usual module: ± 0.05 V and two digits.
    const standard = Math.hypot(0.05 / Math.sqrt(3), 0.01 / Math.sqrt(12));
    const finding = at('11.53 V');
    const chance = (limit: number) => normalCdf((11.53 - limit) / standard);
    expect(finding.tiers).toEqual([
      { weight: 'hold', limits: { low: 11.5, high: null }, inside: expect.closeTo(chance(11.5), 12) },
      { weight: 'look', limits: { low: 11.8, high: null }, inside: expect.closeTo(chance(11.8), 12) },
    ]);
    expect(finding.inside).toBe(finding.tiers[1]?.inside);
    expect(finding.coverage).toBe(2);
    expect(finding.outside).toEqual({ low: expect.closeTo(1 - chance(11.8), 12), high: 0 });
  });

  it('count the chance of being beyond a side by the tightest limit there', () => {
    const both = supply.replace('at-least: 11.8 V', 'between: [11.0 V, 11.6 V]');
    const { outside, tiers } = at('11.53 V', '', both);
    const standard = Math.hypot(0.05 / Math.sqrt(3), 0.01 / Math.sqrt(12));
    expect(outside.low).toBeCloseTo(normalCdf((11.5 - 11.53) / standard), 12);
    expect(outside.high).toBeCloseTo(normalCdf((11.53 - 11.6) / standard), 12);
    expect(tiers.map(({ inside }) => inside)).toEqual([
      expect.closeTo(1 - outside.low, 12),
      expect.closeTo(1 - outside.high, 12),
    ]);
  });

  it('bring their own basis, else the check’s', () => {
    expect(at('11.30 V').basis).toEqual({ kind: 'from-memory', source: 'a guess' });
    expect(at('11.65 V').basis).toEqual({ kind: 'common-practice', source: null });
  });

  it('serve only their own states and layouts', () => {
    const tiers = `checks:
  - id: supply
    kind: range
    title: Supply
    of: supply
    in: [key-on, running]
    basis: {kind: common-practice}
    tiers:
      - {weight: hold, at-least: 11.5 V, in: [key-on]}
      - {weight: look, at-least: 13.2 V, in: [running]}
      - {weight: note, at-least: 14 V, layouts: [rear-air-assist]}`;
    const sheet = (layout: string) =>
      judge(
        tiers,
        `vehicle: {name: Shuttle 7, layout: ${layout}}
snapshots:
  - {id: a, at: 2026-03-02T09:00, state: key-on, readings: {supply: 12.40 V}}
  - {id: b, at: 2026-03-02T09:10, state: running, readings: {supply: 12.40 V}}`,
      );
    const four = sheet('four-corner-air');
    expect(said(findingOf(four, 'supply', 'supply', 'a'))).toBe('within hold');
    expect(said(findingOf(four, 'supply', 'supply', 'b'))).toBe('out look');
    expect(said(findingOf(sheet('rear-air-assist'), 'supply', 'supply', 'a'))).toBe('out note');
  });

  it('leave a check out where no tier serves the layout, and where the check does not', () => {
    const only = (more: string) =>
      judge(
        `checks: [{id: x, kind: range, title: X, of: supply, in: [key-on], basis: {kind: from-memory}, ${more}}]`,
        keyOn('{supply: 12.40 V}'),
      ).findings;
    expect(only('tiers: [{weight: hold, at-least: 11.5 V, layouts: [rear-air-assist]}]')).toEqual([]);
    expect(only('layouts: [rear-air-assist], tiers: [{weight: hold, at-least: 11.5 V}]')).toEqual([]);
    expect(only('layouts: [four-corner-air], tiers: [{weight: hold, at-least: 11.5 V}]')).toHaveLength(1);
  });
});

describe('the vehicle’s own figures', () => {
  const own = (data: string) => `, service-data: [{check: bench/supply, source: workshop manual, ${data}}]`;

  it('replace the tightest tier where they give no weight', () => {
    const data = own('at-least: 12.2 V');
    expect(at('12.00 V', data)).toMatchObject({
      verdict: 'out',
      weight: 'look',
      limits: { low: 12.2, high: null },
      basis: { kind: 'vehicle-data', source: 'workshop manual' },
      remarks: [{ kind: 'service-data', source: 'workshop manual' }],
    });
    expect(said(at('11.30 V', data))).toBe('out hold');
    expect(at('11.30 V', data).basis.kind).toBe('from-memory');
  });

  it('may be kinder than the pack, and then the pack’s tier is gone', () => {
    expect(said(at('11.70 V', own('at-least: 11.6 V')))).toBe('within look');
  });

  it('replace the tier of the weight that they give', () => {
    const data = own('at-least: 11.0 V, weight: hold');
    expect(said(at('11.30 V', data))).toBe('out look');
    expect(at('10.80 V', data)).toMatchObject({ weight: 'hold', basis: { kind: 'vehicle-data' } });
  });

  it('stand beside the tiers where none has that weight', () => {
    const data = own('at-least: 12.5 V, weight: note');
    expect(said(at('12.20 V', data))).toBe('out note');
    expect(said(at('11.65 V', data))).toBe('out look');
  });

  it('hold for the channel or subject that they name', () => {
    const pack = `checks:
  - {id: ride-band, kind: range, title: Ride band, of: position, in: [key-on], basis: {kind: common-practice}, tiers: [{weight: look, between: [1.25 V, 3.75 V]}]}`;
    const body = (of: string) => `vehicle:
  name: Shuttle 7
  layout: four-corner-air
  service-data: [{check: bench/ride-band, ${of}between: [1.00 V, 2.60 V], source: workshop manual}]
${keyOn('{position: {LF: 1.12 V, RF: 2.50 V, LR: 1.12 V, RR: 2.50 V}}')}`;
    const outs = (of: string) =>
      judge(pack, body(of))
        .findings.filter(({ verdict }) => verdict === 'out')
        .map(({ subject }) => subject);
    expect(outs('of: position.LR, ')).toEqual(['LF']);
    expect(outs('of: LR, ')).toEqual(['LF']);
    expect(outs('')).toEqual([]);
  });
});
