import { describe, expect, it } from 'vitest';
import { cornerStandings } from '../../../src/core/outlook/corner-standing.ts';
import { together } from '../../../src/core/outlook/together.ts';
import type { Worksheet } from '../../../src/core/worksheet.ts';
import { judge, keyOn } from '../../support/judge.ts';

const pack = `channels:
  - {id: position, per: corner, title: position signal, quantity: voltage, unit: V, by: module, depends: [sensor]}
  - {id: height, per: corner, title: height by tape, quantity: length, unit: mm, by: tape, depends: [air-spring]}
checks:
  - id: band
    kind: range
    title: Signal in its band
    of: position
    in: [key-on, running]
    tiers: [{weight: look, between: [1.25 V, 3.75 V]}]
    basis: {kind: common-practice}
  - id: left-right
    kind: left-right
    title: Left against right
    of: position
    in: [key-on]
    tiers: [{weight: hold, between: [-1 V, 1 V]}]
    basis: {kind: common-practice}
  - id: tape-pair
    kind: left-right
    title: Height by tape, left against right
    of: height
    in: [key-on]
    tiers: [{weight: hold, between: [-20 mm, 20 mm]}]
    basis: {kind: common-practice}
  - id: tape-band
    kind: range
    title: Height by tape
    of: height
    in: [key-on]
    tiers: [{weight: look, between: [300 mm, 500 mm]}]
    basis: {kind: common-practice}
`;

const words = (sheet: Worksheet, of: 'signal' | 'tape' = 'signal'): string =>
  cornerStandings(sheet)
    .corners.map((one) => `${one.corner} ${one[of]?.word ?? '-'}`)
    .join(', ');

const even = '{position: {LF: 2.5 V, RF: 2.5 V, LR: 2.5 V, RR: 2.5 V}}';
const lowRear = '{position: {LF: 2.5 V, RF: 2.5 V, LR: 1.1 V, RR: 2.5 V}}';

const said = (sheet: Worksheet): unknown => together(sheet, cornerStandings(sheet));

describe('how the corners stand', () => {
  it('are ok within their limits', () => {
    const sheet = judge(pack, keyOn(even));
    expect(words(sheet)).toBe('LF ok, RF ok, LR ok, RR ok');
    expect(said(sheet)).toEqual({ kind: 'even', tape: false, unread: [] });
  });

  it('has a corner low by its own limits, and the one across is not blamed for it', () => {
    const sheet = judge(pack, keyOn(lowRear));
    expect(words(sheet)).toBe('LF ok, RF ok, LR low, RR ok');
    expect(said(sheet)).toEqual({ kind: 'signal-only', corners: ['LR'], word: 'low', tape: 'none' });
  });

  it('names the lower of two that differ and are both in their band', () => {
    const sheet = judge(pack, keyOn('{position: {LF: 1.9 V, RF: 3.2 V, LR: 2.5 V, RR: 2.5 V}}'));
    expect(words(sheet)).toBe('LF lower, RF ok, LR ok, RR ok');
  });

  it('says what jumps, what was not read and what could not be', () => {
    const sheet = judge(
      pack,
      keyOn('{position: {LF: {low: 2.1 V, high: 2.9 V}, RF: 2.5 V, LR: {why: no adapter}}}'),
    );
    expect(words(sheet)).toBe('LF jumps, RF ok, LR not-read, RR -');
    expect(said(sheet)).toEqual({ kind: 'jumps', corners: ['LF'] });
  });

  it('is old after work on the sensor of that corner', () => {
    const log = 'log: [{at: 2026-03-02T10:00, did: replaced, what: sensor.LR}]\n';
    expect(words(judge(pack, keyOn(lowRear) + log))).toBe('LF ok, RF ok, LR old, RR ok');
  });

  it('has the tape beside the signal, and what both say', () => {
    const tape = 'height: {LF: 400 mm, RF: 400 mm, LR: 360 mm, RR: 400 mm}';
    const both = judge(pack, keyOn(lowRear.replace(/\}$/u, `, ${tape}}`)));
    expect(words(both, 'tape')).toBe('LF ok, RF ok, LR lower, RR ok');
    expect(said(both)).toEqual({ kind: 'both-off', axles: ['rear'] });
    const body = judge(pack, keyOn(even.replace(/\}$/u, `, ${tape}}`)));
    expect(said(body)).toEqual({ kind: 'body-only', corners: ['LR'], word: 'lower' });
    const signal = judge(pack, keyOn(lowRear.replace(/\}$/u, `, ${tape.replace('360', '400')}}`)));
    expect(said(signal)).toMatchObject({ kind: 'signal-only', tape: 'even' });
  });

  it('is of the snapshot that shows something off, not of a newer one that does not', () => {
    const later = `  - id: later
    at: 2026-03-02T09:00
    state: running
    readings: ${even}
`;
    const { signalsOf } = cornerStandings(judge(pack, keyOn(lowRear) + later));
    expect(signalsOf?.id).toBe('as-found');
    expect(cornerStandings(judge(pack, keyOn(even) + later)).signalsOf?.id).toBe('later');
  });

  it('says nothing of corners that were never read', () => {
    const sheet = judge(pack, keyOn('{height.LF: 400 mm}'));
    expect(said(sheet)).toEqual({ kind: 'nothing' });
  });
});
