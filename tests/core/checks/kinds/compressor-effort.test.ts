import { describe, expect, it } from 'vitest';
import { packOf } from '../../../support/judge.ts';
import { findingsOf, judgeShipped, shippedPack } from '../../../support/shipped.ts';

/** The test at the port alone, since its pack is about suspects. */
const tests = packOf(`pack: port-test
components: []
channels: []
tests:
  - id: exhaust-port
    title: Air at the exhaust port
    minutes: 2
    outcomes: [{id: quiet, title: no air comes out}, {id: air-escapes, title: air comes out}]`);

const packs = [shippedPack('air-supply@2.0.0'), tests];

interface Run {
  readonly gain: number;
  readonly current: string;
  readonly volts?: string;
  readonly vehicle?: string;
  readonly log?: string;
}

/** A run of two minutes, and what is said of it. */
const effort = ({ gain, current, volts = '13.0 V', vehicle = '20 A', log = '' }: Run) => {
  const snapshots = [0, 1, 2].map(
    (minute) =>
      `  - {id: m${minute}, at: 2026-03-02T09:0${minute}:00, state: running, conditions: {compressor: on}, readings: {tank: ${(80 + minute * gain).toFixed(1)} psi, compressor-current: ${current}, compressor-supply: ${volts}, battery: 13.6 V}}`,
  );
  return findingsOf(
    judgeShipped(
      packs,
      `vehicle: {name: Shuttle 7, layout: four-corner-air, air: {tank-volume: 5 l, rated-current: ${vehicle}}}
snapshots:
${snapshots.join('\n')}
${log}`,
    ),
    'air-supply/compressor-effort',
    'compressor',
  ).at(-1);
};

const port = (found: string) =>
  `log: [{at: 2026-03-02T09:10, did: tested, what: exhaust-port, found: ${found}}]`;

describe('what the compressor does with its current', () => {
  it.each([
    [20, '18.0 A', 'normal', 'within'],
    [8, '18.0 A', 'weak', 'out'],
    [0.5, '28.0 A', 'blocked', 'out'],
    [0, '0.0 A', 'none', 'out'],
  ])('%s psi/min on %s: %s', (gain, current, pattern, verdict) => {
    expect(effort({ gain, current })).toMatchObject({ pattern, verdict });
  });

  it('has the exhaust port decide between weak and free', () => {
    const run = { gain: 8, current: '9.0 A' };
    expect(effort({ ...run, log: port('air-escapes') })?.pattern).toBe('free');
    expect(effort({ ...run, log: port('quiet') })?.pattern).toBe('weak');
    expect(effort(run)?.patternWeights?.free).toBeCloseTo(0.5, 2);
  });

  it('wants good volts at its plug first, but not where no current flows', () => {
    expect(effort({ gain: 8, current: '18.0 A', volts: '12.0 V' })?.missing).toMatchObject({
      why: 'feed-first',
      limit: 1,
    });
    expect(effort({ gain: 0, current: '0.0 A', volts: '0.0 V' })?.pattern).toBe('none');
  });
});
