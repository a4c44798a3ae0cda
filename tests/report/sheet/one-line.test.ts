import { describe, expect, it } from 'vitest';
import { renderWorksheet } from '../../../src/report/sheet/sheet.ts';
import { makeStyle } from '../../../src/report/style.ts';
import { judge, keyOn } from '../../support/judge.ts';

const style = makeStyle({
  width: 80,
  colour: 0,
  ascii: false,
  all: false,
  pressureUnit: null,
  temperatureUnit: null,
});

const pack = `checks:
  - id: reference
    kind: range
    title: Reference at the plug
    of: reference
    in: [key-on]
    tiers: [{weight: hold, between: [4.75 V, 5.25 V]}]
    basis: {kind: common-practice}
    says: {low: 'the shared reference is low; unplug the sensors one by one'}
  - id: rails
    kind: range
    title: Signal clear of both rails
    of: position
    in: [key-on]
    tiers: [{weight: hold, between: [0.25 V, 4.75 V]}]
    basis: {kind: common-practice}
  - id: band
    kind: range
    title: Signal in its band
    of: position
    in: [key-on]
    tiers: [{weight: look, between: [1.25 V, 3.75 V]}]
    basis: {kind: common-practice}
  - {id: codes, kind: stored-codes, title: Trouble code, weights: {present: hold, stored: hold}, basis: {kind: common-practice}}
hold-points:
  - {id: release, title: Release, clear-when: {all: [{no-finding: {weight: hold}}]}}
`;

const sheetOf = (readings: string, more = '', log = ''): string =>
  renderWorksheet(judge(pack, keyOn(readings, more) + log), 's7.yaml', style);

const codes = `    codes:
      - {code: C3A21, status: stored, means: signal-range}
      - {code: C3A22, status: stored, means: signal-range}
      - {code: C3A23, status: present, means: supply-range}
`;

describe('what repeats', () => {
  const low = '{reference: {LF: 3.62 V, RF: 3.61 V, LR: 3.62 V, RR: 3.60 V}}';

  it('is one line for four corners, with the least and the greatest', () => {
    const sheet = sheetOf(low);
    expect(sheet).toContain('Reference at the plug, LF RF LR RR: 3.60 to 3.62 V,');
    expect(sheet.match(/Reference at the plug/gu)).toHaveLength(1);
    expect(sheet).toContain('the shared reference is low\n');
    expect(sheet).not.toContain('unplug the sensors');
  });

  it('is one line for codes of one kind', () => {
    expect(sheetOf(low, codes)).toContain('C3A21 C3A22 stored, signal range; C3A23 present, supply');
  });

  it('is not told of a band where a wider one was left already', () => {
    const sheet = sheetOf('{position.LF: 0.10 V}');
    expect(sheet).toContain('hold    Signal clear of both rails, LF: 0.10 V');
    expect(sheet).not.toContain('Signal in its band');
  });
});

describe('what stays out', () => {
  it('is what work has superseded: it is asked for again, and holds the release until then', () => {
    const log = 'log: [{at: 2026-03-02T10:00, did: replaced, what: sensor.LF}]\n';
    const sheet = sheetOf(
      '{position: {LF: 0.10 V, RF: 2.5 V, LR: 2.5 V, RR: 2.5 V}, reference: 5 V}',
      '',
      log,
    );
    expect(sheet).not.toContain('hold    Signal');
    expect(sheet).toContain('DO NOT RELEASE: not read again: signal clear of both rails (LF)');
    expect(sheet).toContain('Readings again, key-on: position LF');
  });
});

describe('the line to type', () => {
  it('is never broken, however narrow it gets', () => {
    const narrow = makeStyle({ ...style.options, width: 60 });
    const file = `${'a-long-folder/'.repeat(6)}s7.yaml`;
    const sheet = renderWorksheet(judge(pack, keyOn('{position.LF: 2.5 V}')), file, narrow);
    const [line] = sheet.split('\n').filter((one) => one.startsWith('     cornerwise '));
    expect(line).toContain(file);
    expect(sheet.split('\n').filter((one) => one !== line && [...one].length > 60)).toEqual([]);
  });
});
