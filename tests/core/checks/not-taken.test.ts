import { describe, expect, it } from 'vitest';
import { findingOf, judge, keyOn } from '../../support/judge.ts';

const check = (more: string): string =>
  `checks: [{id: band, kind: range, title: Band, of: position, in: [key-on, running], basis: {kind: from-memory}, tiers: [{weight: look, between: [1 V, 4 V]}]${more && `, ${more}`}}]`;
const plain = check('');

const missing = (pack: string, body: string) => {
  const finding = findingOf(judge(pack, body), 'band', 'LF');
  expect(finding).toMatchObject({
    id: 'bench/band:LF',
    verdict: 'not-taken',
    weight: 'note',
    snapshot: null,
    state: null,
    current: true,
    measured: null,
    limits: null,
  });
  return finding.missing;
};

describe('not taken, and why', () => {
  it('no snapshot of a fitting state', () => {
    const body = 'snapshots: [{id: a, at: 2026-03-02T09:00, state: rest, readings: {position: {LF: 2.5 V}}}]';
    expect(missing(plain, body)).toEqual({
      why: 'no-snapshot',
      states: ['key-on', 'running'],
      channels: ['position.LF'],
    });
  });

  it('no snapshot at all', () => {
    expect(missing(plain, 'snapshots: []')).toMatchObject({ why: 'no-snapshot' });
  });

  it('no reading in any of them', () => {
    expect(missing(plain, keyOn('{position: {RF: 2.50 V}}'))).toEqual({
      why: 'no-reading',
      states: ['key-on', 'running'],
      channels: ['position.LF'],
    });
  });

  it('could not be taken, in the technician’s words', () => {
    expect(missing(plain, keyOn('{position: {LF: {why: plug seized}}}'))).toEqual({
      why: 'could-not-be-taken',
      channel: 'position.LF',
      text: 'plug seized',
    });
  });

  it('a condition that is not stated', () => {
    expect(missing(check('needs: {floor: level}'), keyOn('{position: {LF: 2.50 V}}'))).toEqual({
      why: 'condition-not-stated',
      condition: 'floor',
      wants: 'level',
    });
  });

  it('a condition that differs', () => {
    const body = keyOn('{position: {LF: 2.50 V}}', '    conditions: {floor: sloped}');
    expect(missing(check('needs: {floor: level}'), body)).toEqual({
      why: 'condition-differs',
      condition: 'floor',
      wants: 'level',
      is: 'sloped',
    });
  });

  it('a condition that rules it out; unstated it does not', () => {
    const pack = check('unless: {maintainer: on}');
    const body = keyOn('{position: {LF: 2.50 V}}', '    conditions: {maintainer: on}');
    expect(missing(pack, body)).toEqual({
      why: 'condition-differs',
      condition: 'maintainer',
      wants: 'not on',
      is: 'on',
    });
    expect(findingOf(judge(pack, keyOn('{position: {LF: 2.50 V}}')), 'band', 'LF').verdict).toBe('within');
  });

  it('an absent reading is told before a condition, which was not asked of it', () => {
    expect(missing(check('needs: {floor: level}'), keyOn('{position: {RF: 2.50 V}}'))).toMatchObject({
      why: 'no-reading',
    });
  });

  it('a vehicle that the limits are not for', () => {
    const body = `vehicle: {name: Shuttle 7, layout: four-corner-air, system: 24 V}\n${keyOn('{position: {LF: 2.50 V}}')}`;
    expect(missing(check('only: {system: [12 V]}'), body)).toEqual({
      why: 'vehicle-differs',
      what: 'system',
      wants: '12 V',
      is: '24 V',
    });
  });

  it('a vehicle that does not say what the limits hang on', () => {
    expect(missing(check('only: {battery: [agm, flooded]}'), keyOn('{position: {LF: 2.50 V}}'))).toEqual({
      why: 'vehicle-not-stated',
      what: 'battery',
    });
  });

  it('is told once, though several snapshots lack it, with the newest telling reason', () => {
    const body = `snapshots:
  - {id: a, at: 2026-03-02T09:00, state: key-on, readings: {position: {LF: {why: battery flat}}}}
  - {id: b, at: 2026-03-02T09:10, state: key-on, readings: {position: {LF: {why: plug seized}}}}
  - {id: c, at: 2026-03-02T09:20, state: running}`;
    expect(missing(plain, body)).toMatchObject({ why: 'could-not-be-taken', text: 'plug seized' });
  });

  it('is nothing once one snapshot of a fitting state has the reading', () => {
    const body = `snapshots:
  - {id: a, at: 2026-03-02T09:00, state: key-on, readings: {position: {LF: 2.50 V}}}
  - {id: b, at: 2026-03-02T09:10, state: running}`;
    expect(findingOf(judge(plain, body), 'band', 'LF')).toMatchObject({ verdict: 'within', snapshot: 'a' });
  });

  it('is not wanted where only a test asks for the reading', () => {
    expect(findingOf(judge(check('wanted: in-test'), 'snapshots: []'), 'band', 'LF').wanted).toBe(false);
    expect(findingOf(judge(plain, 'snapshots: []'), 'band', 'LF').wanted).toBe(true);
  });
});
