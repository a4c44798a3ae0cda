import { describe, expect, it } from 'vitest';
import { findingsOf, judgeShipped, shippedPack } from '../../../support/shipped.ts';

const packs = [shippedPack('body-heights@1.0.0')];

interface Move {
  readonly first: string;
  readonly second: string;
  readonly levelling?: string;
  readonly at?: string;
  readonly more?: string;
}

const moved = ({ first, second, levelling = 'disabled', at = '2026-03-02T08:50', more = '' }: Move) =>
  findingsOf(
    judgeShipped(
      packs,
      `vehicle: {name: Shuttle 7, layout: four-corner-air, sensor-sense: {LF: rising, LR: rising, RR: rising}}
snapshots:
  - {id: a, at: 2026-03-02T08:40, state: key-on, conditions: {levelling: ${levelling}}, readings: ${first}}
  - {id: b, at: ${at}, state: key-on, conditions: {levelling: ${levelling}}, readings: ${second}}
${more}`,
    ),
    'body-heights/moves-together',
    'LR',
  ).at(-1);

const low = '{position: {LR: 2.00 V, RR: 2.00 V}, height: {LR: 380 mm, RR: 380 mm}}';
const high = (LR: string, RR: string) =>
  `{position: {LR: ${LR}, RR: ${RR}}, height: {LR: 430 mm, RR: 430 mm}}`;

describe('signal and tape on command', () => {
  it.each([
    ['3.00 V', 'follows', 'within'],
    ['1.00 V', 'wrong-way', 'out'],
    ['2.02 V', 'still', 'out'],
    ['2.40 V', 'still', 'out'],
  ])('the left goes to %s: %s', (LR, pattern, verdict) => {
    expect(moved({ first: low, second: high(LR, '3.00 V') })).toMatchObject({ pattern, verdict });
  });

  it('holds one that goes the wrong way', () => {
    expect(moved({ first: low, second: high('1.00 V', '3.00 V') })?.weight).toBe('hold');
  });

  it('wants levelling off, one session and no work between', () => {
    const move = { first: low, second: high('1.00 V', '3.00 V') };
    expect(moved({ ...move, levelling: 'active' })?.missing).toMatchObject({ condition: 'levelling' });
    expect(moved({ ...move, at: '2026-03-02T10:41' })?.missing?.why).toBe('too-few-points');
    const work = 'log: [{at: 2026-03-02T08:45, did: replaced, what: sensor.LR}]';
    expect(moved({ ...move, more: work })?.missing?.why).toBe('too-few-points');
  });

  it('says nothing of a body that hardly moved', () => {
    const little = '{position: {LR: 2.20 V, RR: 2.20 V}, height: {LR: 390 mm, RR: 390 mm}}';
    expect(moved({ first: low, second: little })?.missing).toMatchObject({ why: 'not-moved', wants: 15 });
  });
});
