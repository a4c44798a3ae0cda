import { describe, expect, it } from 'vitest';
import { counts } from '../../src/core/finding.ts';
import { failLevels, fails, levelOf } from '../../src/core/level.ts';
import { findingOf, judge } from '../support/judge.ts';

const pack = `checks:
  - {id: rails, kind: range, title: Rails, of: position, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: hold, between: [0.25 V, 4.75 V]}]}
  - {id: supply, kind: range, title: Supply, of: supply, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, at-least: 11.8 V}]}
  - {id: slight, kind: range, title: Slight, of: battery, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: note, at-least: 12.0 V}]}`;

const good = {
  position: '{LF: 2.5 V, RF: 2.5 V, LR: 2.5 V, RR: 2.5 V}',
  supply: '12.40 V',
  battery: '12.60 V',
};
const job = (more: Partial<typeof good> = {}, log = '') => {
  const readings = Object.entries({ ...good, ...more })
    .filter(([, reading]) => reading !== '')
    .map(([key, reading]) => `${key}: ${reading}`)
    .join(', ');
  return `snapshots: [{id: a, at: 2026-03-02T09:00, state: key-on, readings: {${readings}}}]\n${log}`;
};
const exits = (body: string) => {
  const { findings } = judge(pack, body);
  return failLevels.filter((level) => fails(findings, level));
};
const pinned = '{LF: 0.10 V, RF: 2.5 V, LR: 2.5 V, RR: 2.5 V}';

describe('the level at which a job fails', () => {
  it.each([
    ['all within', job(), []],
    ['out at hold', job({ position: pinned }), ['hold', 'look']],
    ['out at look', job({ supply: '11.00 V' }), ['look']],
    ['out at note', job({ battery: '11.00 V' }), []],
    ['too close to hold counts as look', job({ position: pinned.replace('0.10', '0.25') }), ['look']],
    ['too close to look', job({ supply: '11.80 V' }), ['look']],
    ['too close to a note stays a note', job({ battery: '12.00 V' }), []],
    ['not taken', job({ supply: '' }), []],
    ['no snapshot at all', '', []],
  ])('%s', (_, body, expected) => {
    expect(exits(body)).toEqual(expected);
  });

  it('counts a stale out that nothing retook, and not a superseded one', () => {
    const worked = 'log: [{at: 2026-03-02T10:00, did: replaced, what: sensor.LF}]';
    expect(exits(job({ position: pinned }, worked))).toEqual(['hold', 'look']);
    const retaken = `snapshots:
  - {id: a, at: 2026-03-02T09:00, state: key-on, readings: {position: ${pinned}, supply: 12.40 V, battery: 12.60 V}}
  - {id: b, at: 2026-03-02T10:30, state: key-on, readings: {position: ${good.position}}}
${worked}`;
    expect(exits(retaken)).toEqual([]);
  });

  it('does not count what is waived', () => {
    const waiver = 'waivers: [{finding: "bench/rails:LF", reason: r, by: workshop lead, until: 2026-03-09}]';
    expect(exits(job({ position: pinned }, waiver))).toEqual([]);
    expect(exits(job({ position: pinned.replace('0.10', '0.25') }, waiver))).toEqual([]);
  });

  it('gives each finding its weight', () => {
    const level = (body: string, check: string, subject: string) =>
      levelOf(findingOf(judge(pack, body), check, subject));
    expect(level(job({ position: pinned }), 'rails', 'LF')).toBe('hold');
    expect(level(job(), 'rails', 'LF')).toBeNull();
    expect(level(job({ position: pinned.replace('0.10', '0.25') }), 'rails', 'LF')).toBe('look');
    expect(level(job({ battery: '12.00 V' }), 'slight', 'battery')).toBe('note');
    expect(level(job({ supply: '' }), 'supply', 'supply')).toBe('note');
  });

  it('counts nothing but an out', () => {
    const { findings } = judge(pack, job({ position: pinned, supply: '11.80 V', battery: '' }));
    expect(findings.filter(counts).map(({ subject }) => subject)).toEqual(['LF']);
  });
});
