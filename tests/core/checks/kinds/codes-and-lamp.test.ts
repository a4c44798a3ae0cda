import { describe, expect, it } from 'vitest';
import { findingOf, judge, said } from '../../../support/judge.ts';

const pack = `checks:
  - id: codes
    kind: stored-codes
    title: Stored code
    basis: {kind: common-practice}
    weights: {present: hold, stored: hold, pending: look}
    failure-types: {"54": not-calibrated}
    answered-by-step: {not-calibrated: height-learn}
  - {id: lamp, kind: lamp, title: Lamp, weight: hold, basis: {kind: common-practice}, says: {out: it is lit}, says-by-state: {no-self-test: it never lit}}
  - {id: untested, kind: cleared-not-tested, title: Cleared and not tested, weight: look, basis: {kind: published, title: Unified diagnostic services, issuer: ISO, clause: 14229-1 D.2}}`;

const snapshot = (id: string, time: string, more: string): string =>
  `  - {id: ${id}, at: 2026-03-02T${time}, state: key-on${more && `, ${more}`}}`;
const sheetOf = (snapshots: readonly string[], log = '') =>
  judge(pack, `snapshots:\n${snapshots.join('\n')}\n${log}`);
const one = (more: string, log = '') => sheetOf([snapshot('a', '09:00', more)], log);

describe('stored codes', () => {
  it.each([
    ['stored', 'out hold'],
    ['present', 'out hold'],
    ['pending', 'out look'],
    ['history', 'within note'],
    ['0x28', 'out hold'],
    ['0x09', 'out hold'],
    ['0x04', 'out look'],
    ['0x50', 'within note'],
  ])('%s: %s, lamp or no lamp', (status, expected) => {
    for (const lamp of ['on', 'off']) {
      const sheet = one(`lamp: ${lamp}, codes: [{code: C1A21, status: ${status}}]`);
      expect(said(findingOf(sheet, 'codes', 'C1A21'))).toBe(expected);
    }
  });

  it('counts a code without a status as stored', () => {
    expect(said(findingOf(one('codes: [{code: C1A21}]'), 'codes', 'C1A21'))).toBe('out hold');
  });

  it('is within, as codes, where a list was read and held nothing', () => {
    expect(said(findingOf(one('codes: []'), 'codes', 'codes'))).toBe('within hold');
  });

  it('is no quantity: the verdict stands for the chance', () => {
    const outside = (more: string) => {
      const { findings } = one(more);
      return findings.filter(({ check }) => check === 'bench/codes').map((finding) => finding.outside);
    };
    expect(outside('codes: [{code: C1A21}]')).toEqual([{ low: 1, high: 1 }]);
    expect(outside('codes: []')).toEqual([{ low: 0, high: 0 }]);
    expect(outside('lamp: off')).toEqual([{ low: 0, high: 0 }]);
  });

  it('is not taken where none was read', () => {
    expect(findingOf(one('lamp: off'), 'codes', 'codes').missing).toEqual({ why: 'no-code-list' });
  });

  it('means what was typed, else what the failure type byte says', () => {
    const meaning = (code: string) =>
      one(`codes: [{${code}}]`).findings.flatMap(({ remarks }) =>
        remarks.filter(({ kind }) => kind === 'code'),
      );
    expect(meaning('code: C1A40-54')[0]).toMatchObject({ means: 'not-calibrated', status: 'stored' });
    expect(meaning('code: C1A40-54, means: pressure')[0]).toMatchObject({ means: 'pressure' });
    expect(meaning('code: C1A40')[0]).toMatchObject({ means: null });
  });

  it('names the step that answers it, once there was work', () => {
    const remarks = (log: string) =>
      findingOf(one('codes: [{code: C1A40-54}]', log), 'codes', 'C1A40-54').remarks;
    expect(remarks('').map(({ kind }) => kind)).toEqual(['code']);
    expect(remarks('log: [{at: 2026-03-02T08:30, did: replaced, what: control-module}]')).toContainEqual({
      kind: 'answered-by-step',
      step: 'height-learn',
    });
  });

  it('goes by the newest list in any state', () => {
    const sheet = sheetOf([
      snapshot('a', '09:00', 'codes: [{code: C1A21}]'),
      '  - {id: b, at: 2026-03-02T10:00, state: running, codes: []}',
      snapshot('c', '11:00', 'lamp: off'),
    ]);
    expect(findingOf(sheet, 'codes', 'C1A21')).toMatchObject({ newest: false, current: false, stale: false });
    expect(findingOf(sheet, 'codes', 'codes')).toMatchObject({ newest: true, current: true });
  });

  it.each([
    ['did: cleared, what: codes', true],
    ['did: cleared, what: codes, result: failed', true],
    ['did: replaced, what: sensor.LF', true],
    ['did: tested, what: sensor.LF', false],
    ['did: drove, what: road-test', false],
  ])('a list from before %s is stale: %s', (entry, stale) => {
    const at = (time: string) =>
      findingOf(one('codes: [{code: C1A21}]', `log: [{at: 2026-03-02T${time}, ${entry}}]`), 'codes', 'C1A21');
    expect(at('10:00')).toMatchObject({ stale, current: !stale, newest: true });
    expect(at('09:00').stale).toBe(stale);
    expect(at('08:59').stale).toBe(false);
  });
});

describe('the lamp', () => {
  it.each([
    ['on', 'out hold', 'it is lit'],
    ['flashing', 'out hold', 'it is lit'],
    ['no-self-test', 'out hold', 'it never lit'],
    ['off', 'within hold', null],
  ])('%s: %s', (lamp, expected, words) => {
    const finding = findingOf(one(`lamp: "${lamp}"`), 'lamp', 'lamp');
    expect(said(finding)).toBe(expected);
    expect(finding.words).toBe(words);
  });

  it('is not taken where nobody looked', () => {
    expect(findingOf(one('codes: []'), 'lamp', 'lamp').missing).toEqual({ why: 'no-lamp' });
  });

  it('is not taken where the newest look finds that the vehicle has none', () => {
    const missing = { why: 'vehicle-differs', what: 'lamp', wants: 'fitted', is: 'not-fitted' };
    const without = one('lamp: not-fitted');
    expect(findingOf(without, 'lamp', 'lamp')).toMatchObject({ verdict: 'not-taken', missing });
    expect(without.steps.filter(({ id }) => id.startsWith('readings/'))).toEqual([]);
    const mistaken = sheetOf([
      snapshot('a', '09:00', 'lamp: "on"'),
      snapshot('b', '10:00', 'lamp: not-fitted'),
    ]);
    expect(mistaken.findings.filter((finding) => finding.check.endsWith('lamp'))).toMatchObject([
      { missing },
    ]);
    const fitted = sheetOf([
      snapshot('a', '09:00', 'lamp: not-fitted'),
      snapshot('b', '10:00', 'lamp: "on"'),
    ]);
    expect(said(findingOf(fitted, 'lamp', 'lamp'))).toBe('out hold');
  });

  it('goes by the newest look, and work makes that stale', () => {
    const sheet = sheetOf(
      [snapshot('a', '09:00', 'lamp: "on"'), snapshot('b', '10:00', 'lamp: "off"')],
      'log: [{at: 2026-03-02T11:00, did: replaced, what: sensor.LF}]',
    );
    expect(findingOf(sheet, 'lamp', 'lamp', 'a').newest).toBe(false);
    expect(findingOf(sheet, 'lamp', 'lamp', 'b')).toMatchObject({
      newest: true,
      stale: true,
      current: false,
    });
  });
});

describe('cleared and not tested since', () => {
  it.each([
    ['0x50', 'out look'],
    ['0x58', 'out look'],
    ['0x10', 'within look'],
    ['0x40', 'within look'],
    ['0x00', 'within look'],
    ['0x28', 'within look'],
  ])('%s: %s', (mask, expected) => {
    expect(said(findingOf(one(`codes: [{code: C1A21, status: ${mask}}]`), 'untested', 'C1A21'))).toBe(
      expected,
    );
  });

  it('is not taken without a status byte, or without a list', () => {
    expect(findingOf(one('codes: [{code: C1A21, status: stored}]'), 'untested', 'codes').missing).toEqual({
      why: 'no-status-byte',
    });
    expect(findingOf(one('lamp: off'), 'untested', 'codes').missing).toEqual({ why: 'no-code-list' });
  });
});
