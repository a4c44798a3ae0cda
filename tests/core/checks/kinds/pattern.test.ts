import { describe, expect, it } from 'vitest';
import type { Finding, PatternRemark } from '../../../../src/core/finding.ts';
import { findingOf, judge, keyOn, packProblems, said } from '../../../support/judge.ts';

const pack = `checks:
  - {id: ride-band, kind: range, title: Ride band, of: position, in: [key-on], basis: {kind: common-practice}, tiers: [{weight: look, between: [1.25 V, 3.75 V]}]}
  - id: pattern
    kind: pattern
    title: Pattern
    of: position
    in: [key-on, running]
    needs: {floor: level}
    only: {sensor-signal: [analogue]}
    reference: 5 V
    expected: 2.5 V
    spread: 0.6 V
    expected-by: ride-band
    weight: look
    basis: {kind: from-memory}`;

const rising = '{LF: rising, RF: rising, LR: rising, RR: rising}';
const mixed = '{LF: rising, RF: falling, LR: rising, RR: falling}';
const level = '    conditions: {floor: level}';

const vehicle = (sense: string, more = '', layout = 'four-corner-air'): string =>
  `vehicle: {name: Shuttle 7, layout: ${layout}${sense && `, sensor-sense: ${sense}`}${more}}`;

const patternOf = (position: string, sense = mixed, more = ''): Finding =>
  findingOf(
    judge(pack, `${vehicle(sense, more)}\n${keyOn(`{position: ${position}}`, level)}`),
    'pattern',
    'body',
  );

const remarkOf = ({ remarks }: Finding): PatternRemark => {
  const found = remarks.find((remark) => remark.kind === 'pattern');
  if (!found) throw new Error('no pattern told');
  return found;
};

const kinds = ({ remarks }: Finding): string[] => remarks.map(({ kind }) => kind);

describe('the pattern of the four', () => {
  it.each([
    ['{LF: 2.48 V, RF: 2.55 V, LR: 2.41 V, RR: 2.60 V}', 'within look', 'none', null],
    ['{LF: 2.50 V, RF: 2.50 V, LR: 0.40 V, RR: 2.50 V}', 'out look', 'corner', 'LR'],
    ['{LF: 2.50 V, RF: 2.50 V, LR: 1.55 V, RR: 2.50 V}', 'too-close look', 'corner', 'LR'],
    ['{LF: 1.20 V, RF: 2.50 V, LR: 1.20 V, RR: 2.50 V}', 'out look', 'side', 'left'],
    ['{LF: 2.50 V, RF: 2.50 V, LR: 3.80 V, RR: 1.20 V}', 'out look', 'axle', 'rear'],
    ['{LF: 1.20 V, RF: 3.80 V, LR: 1.20 V, RR: 3.80 V}', 'out look', 'body-together', null],
    ['{LF: 3.70 V, RF: 3.72 V, LR: 3.66 V, RR: 3.74 V}', 'out look', 'electrical-together', null],
  ])('%s: %s, %s %s', (position, expected, family, where) => {
    const finding = patternOf(position);
    expect(said(finding)).toBe(expected);
    expect(remarkOf(finding)).toMatchObject({ family, where });
    expect(finding.channels).toEqual(['position.LF', 'position.RF', 'position.LR', 'position.RR']);
    expect([finding.measured, finding.limits, finding.inside]).toEqual([null, null, null]);
  });

  it('says how sure it is, and against what', () => {
    const sure = remarkOf(patternOf('{LF: 0.90 V, RF: 4.10 V, LR: 0.90 V, RR: 4.10 V}'));
    expect(sure).toMatchObject({ family: 'body-together', model: 'body', sure: 'very-strong' });
    expect(sure.amount).toBeCloseTo(-1.6, 9);
    expect(sure.lead).toBeGreaterThan(10);
    const unsure = remarkOf(patternOf('{LF: 2.50 V, RF: 2.50 V, LR: 1.55 V, RR: 2.50 V}'));
    expect(unsure).toMatchObject({ family: 'corner', where: 'LR', sure: 'cannot-tell', next: 'none' });
  });

  it('lets the tape decide where all sensors turn alike, and only there', () => {
    const up = '{LF: 3.90 V, RF: 3.90 V, LR: 3.90 V, RR: 3.90 V}';
    expect(kinds(patternOf(up, rising))).toEqual(['pattern', 'tape-decides']);
    expect(remarkOf(patternOf(up, rising))).toMatchObject({ sure: 'cannot-tell', next: 'body-together' });
    expect(said(patternOf(up, rising))).toBe('out look');
    expect(kinds(patternOf(up, mixed))).toEqual(['pattern']);
    expect(kinds(patternOf('{LF: 2.50 V, RF: 2.50 V, LR: 2.50 V, RR: 2.50 V}', rising))).toEqual(['pattern']);
  });

  it('says that it takes all sensors to rise where nobody stated it', () => {
    const finding = patternOf('{LF: 1.20 V, RF: 2.50 V, LR: 1.20 V, RR: 2.50 V}', '');
    expect(remarkOf(finding)).toMatchObject({ family: 'side', where: 'left' });
    expect(kinds(finding)).toContain('sense-not-stated');
  });

  it('expects the middle of the vehicle’s own band, and wonders sooner where it is narrow', () => {
    const position = '{LF: 2.50 V, RF: 2.50 V, LR: 1.50 V, RR: 2.50 V}';
    const data = (limits: string, of = 'of: position.LR, ') =>
      `, service-data: [{check: bench/ride-band, ${of}${limits}, source: manual}]`;
    const family = (more: string) => remarkOf(patternOf(position, mixed, more)).family;
    expect(said(patternOf(position, mixed))).toBe('too-close look');
    expect(family(data('between: [1.00 V, 2.00 V]'))).toBe('none');
    expect(said(patternOf(position, mixed, data('between: [2.00 V, 3.00 V]')))).toBe('out look');
    expect(said(patternOf(position, mixed, data('between: [2.00 V, 3.00 V]', 'of: LR, ')))).toBe('out look');
    expect(said(patternOf(position, mixed, data('between: [2.00 V, 3.00 V]', '')))).toBe('out look');
    // One limit gives no middle.
    expect(said(patternOf(position, mixed, data('at-least: 2.00 V')))).toBe('too-close look');
  });

  it('takes no band to be narrower than the reading is good to', () => {
    const narrow = ', service-data: [{check: bench/ride-band, between: [2.50 V, 2.50 V], source: manual}]';
    const finding = patternOf('{LF: 2.52 V, RF: 2.49 V, LR: 2.50 V, RR: 2.51 V}', mixed, narrow);
    expect(remarkOf(finding).family).toBe('none');
  });

  it('is not taken without a condition, a corner or a single value', () => {
    const sheet = (position: string, more = level) =>
      findingOf(
        judge(pack, `${vehicle(mixed)}\n${keyOn(`{position: ${position}}`, more)}`),
        'pattern',
        'body',
      ).missing;
    const good = '{LF: 2.50 V, RF: 2.50 V, LR: 2.50 V, RR: 2.50 V}';
    expect(sheet(good, '')).toMatchObject({ why: 'condition-not-stated', condition: 'floor' });
    expect(sheet('{LF: 2.50 V, RF: 2.50 V, RR: 2.50 V}')).toMatchObject({
      why: 'no-reading',
      channels: ['position.LR'],
    });
    expect(sheet(good.replace('LR: 2.50 V', 'LR: {low: 1 V, high: 2 V}'))).toEqual({
      why: 'jumping',
      channel: 'position.LR',
    });
    const digital = patternOf(good, mixed, ', sensor-signal: digital');
    expect(digital.missing).toMatchObject({ why: 'vehicle-differs', what: 'sensor-signal' });
  });

  it('asks four sensors or nothing', () => {
    const sheet = judge(
      pack,
      `${vehicle('', '', 'rear-air-assist')}\n${keyOn('{position: {LR: 0.40 V, RR: 2.50 V}}', level)}`,
    );
    expect(sheet.findings.filter(({ check }) => check === 'bench/pattern')).toEqual([]);
  });

  it('is current in its state until work on any of the four', () => {
    const readings = '{position: {LF: 2.50 V, RF: 2.50 V, LR: 0.40 V, RR: 2.50 V}}';
    const sheet = judge(
      pack,
      `${vehicle(mixed)}
snapshots:
  - {id: before, at: 2026-03-02T08:40, state: key-on, conditions: {floor: level}, readings: ${readings}}
  - {id: running, at: 2026-03-02T08:45, state: running, conditions: {floor: level}, readings: ${readings}}
  - {id: after, at: 2026-03-02T09:40, state: key-on, conditions: {floor: level}, readings: ${readings.replace('0.40', '2.40')}}
log: [{at: 2026-03-02T09:00, did: replaced, what: sensor.LR}]`,
    );
    const of = (id: string) => findingOf(sheet, 'pattern', 'body', id);
    expect(of('before')).toMatchObject({ verdict: 'out', newest: false, stale: true, current: false });
    expect(of('running')).toMatchObject({ verdict: 'out', newest: true, stale: true, current: false });
    expect(of('after')).toMatchObject({ verdict: 'within', newest: true, stale: false, current: true });
  });

  it('wants sensible figures', () => {
    expect(packProblems(pack.replace('spread: 0.6 V', 'spread: 0 V'))).toContain('wrong-value');
    expect(packProblems(pack.replace('reference: 5 V', 'reference: 0 V'))).toContain('wrong-value');
    expect(packProblems(pack.replace('reference: 5 V', 'reference: 5 psi'))).toContain('wrong-unit');
    expect(packProblems(pack.replace('by: ride-band', 'by: ride-bnad'))).toEqual(['unknown-name']);
    expect(packProblems(pack)).toEqual([]);
  });

  it('has no limits that service data could replace', () => {
    expect(() =>
      patternOf(
        '{LF: 2.50 V, RF: 2.50 V, LR: 2.50 V, RR: 2.50 V}',
        mixed,
        ', service-data: [{check: bench/pattern, at-most: 1 V, source: manual}]',
      ),
    ).toThrow(/no limits to replace/u);
  });
});
