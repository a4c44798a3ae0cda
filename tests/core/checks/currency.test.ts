import { describe, expect, it } from 'vitest';
import { findingOf, judge } from '../../support/judge.ts';

const pack = `checks:
  - {id: band, kind: range, title: Band, of: position, in: [key-on, running], basis: {kind: from-memory}, tiers: [{weight: hold, between: [1 V, 4 V]}]}
  - {id: axle, kind: left-right, title: Left less right, of: position, in: [key-on, running], basis: {kind: from-memory}, tiers: [{weight: look, between: [-0.5 V, 0.5 V]}]}
  - {id: supply, kind: range, title: Supply, of: supply, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, at-least: 11.8 V}]}`;

const snapshot = (id: string, time: string, state: string, readings: string): string =>
  `  - {id: ${id}, at: 2026-03-02T${time}, state: ${state}, readings: ${readings}}`;
const log = (...entries: string[]): string =>
  `log:\n${entries.map((entry) => `  - {${entry.replace(/at: (\d)/u, 'at: 2026-03-02T$1')}}`).join('\n')}`;
const four = '{supply: 12.40 V, position: {LF: 2.50 V, RF: 2.50 V, LR: 0.50 V, RR: 2.50 V}}';

describe('the current finding', () => {
  it('is the newest of its state; the others are superseded and stay', () => {
    const sheet = judge(
      pack,
      `snapshots:
${snapshot('first', '09:00', 'key-on', '{position: {LF: 0.50 V}}')}
${snapshot('second', '09:30', 'key-on', '{position: {LF: 2.50 V}}')}
${snapshot('idle', '09:10', 'running', '{position: {LF: 0.60 V}}')}`,
    );
    const state = (id: string) => {
      const { verdict, current, newest, stale } = findingOf(sheet, 'band', 'LF', id);
      return [verdict, current, newest, stale];
    };
    expect(state('first')).toEqual(['out', false, false, false]);
    expect(state('second')).toEqual(['within', true, true, false]);
    expect(state('idle')).toEqual(['out', true, true, false]);
  });

  it('goes by time, not by the order in the file; of one time the later in the file counts', () => {
    const newest = (...lines: string[]) =>
      judge(pack, `snapshots:\n${lines.join('\n')}`)
        .findings.filter(({ check, subject, newest: is }) => check === 'bench/band' && subject === 'LF' && is)
        .map(({ snapshot: id }) => id);
    const a = snapshot('a', '09:00', 'key-on', '{position: {LF: 2.50 V}}');
    const b = snapshot('b', '09:30', 'key-on', '{position: {LF: 2.50 V}}');
    const c = snapshot('c', '09:30', 'key-on', '{position: {LF: 2.50 V}}');
    expect(newest(a, b)).toEqual(['b']);
    expect(newest(b, a)).toEqual(['b']);
    expect(newest(b, c)).toEqual(['c']);
    expect(newest(c, b)).toEqual(['b']);
  });

  it('stays with an older snapshot where the newest lacks the reading', () => {
    const sheet = judge(
      pack,
      `snapshots:
${snapshot('first', '09:00', 'key-on', '{position: {LF: 0.50 V}}')}
${snapshot('second', '09:30', 'key-on', '{supply: 12.40 V}')}`,
    );
    expect(findingOf(sheet, 'band', 'LF')).toMatchObject({ snapshot: 'first', current: true });
  });
});

describe('stale evidence', () => {
  const states = (entries: string) => {
    const sheet = judge(pack, `snapshots:\n${snapshot('a', '09:00', 'key-on', four)}\n${entries}`);
    return Object.fromEntries(
      sheet.findings.map(({ check, subject, stale }) => [`${check} ${subject}`, stale]),
    );
  };
  const staleAfter = (entries: string) =>
    Object.entries(states(entries))
      .filter(([, stale]) => stale)
      .map(([name]) => name.replace('bench/', ''));

  it('is older than work on a component of its own corner', () => {
    expect(staleAfter(log('at: 10:00, did: replaced, what: sensor.LR'))).toEqual(['band LR', 'axle rear']);
  });

  it('is older than work on a component that all corners share', () => {
    expect(staleAfter(log('at: 10:00, did: programmed, what: control-module'))).toEqual([
      'band LF',
      'band RF',
      'band LR',
      'band RR',
      'axle front',
      'axle rear',
      'supply supply',
    ]);
  });

  it('is not what depends on something else', () => {
    expect(staleAfter(log('at: 10:00, did: replaced, what: battery'))).toEqual(['supply supply']);
    expect(staleAfter(log('at: 10:00, did: replaced, what: compressor'))).toEqual([]);
  });

  it.each(['repaired', 'replaced', 'disconnected', 'programmed', 'configured', 'calibrated'])(
    '%s is work',
    (verb) => {
      expect(staleAfter(log(`at: 10:00, did: ${verb}, what: sensor.LF`))).toEqual(['band LF', 'axle front']);
    },
  );

  it.each(['tested', 'inspected', 'ordered', 'received', 'noted', 'waiting', 'declined'])(
    '%s is none',
    (verb) => {
      expect(staleAfter(log(`at: 10:00, did: ${verb}, what: sensor.LF`))).toEqual([]);
    },
  );

  it('is made by failed work as well', () => {
    expect(staleAfter(log('at: 10:00, did: repaired, what: sensor.LF, result: failed'))).toEqual([
      'band LF',
      'axle front',
    ]);
  });

  it('is not made by work before the reading; work in its very minute counts as after it', () => {
    expect(staleAfter(log('at: 08:59, did: replaced, what: sensor.LF'))).toEqual([]);
    expect(staleAfter(log('at: 09:00, did: replaced, what: sensor.LF'))).toEqual(['band LF', 'axle front']);
  });

  it('is not current, and stays the newest until it is read again', () => {
    const sheet = judge(
      pack,
      `snapshots:
${snapshot('a', '09:00', 'key-on', '{position: {LF: 0.50 V}}')}
${snapshot('b', '11:00', 'key-on', '{position: {LF: 2.50 V}}')}
${log('at: 10:00, did: replaced, what: sensor.LF')}`,
    );
    expect(findingOf(sheet, 'band', 'LF', 'a')).toMatchObject({ stale: true, current: false, newest: false });
    expect(findingOf(sheet, 'band', 'LF', 'b')).toMatchObject({ stale: false, current: true, newest: true });
    const before = judge(
      pack,
      `snapshots:
${snapshot('a', '09:00', 'key-on', '{position: {LF: 0.50 V}}')}
${log('at: 10:00, did: replaced, what: sensor.LF')}`,
    );
    expect(findingOf(before, 'band', 'LF')).toMatchObject({ stale: true, current: false, newest: true });
  });
});
