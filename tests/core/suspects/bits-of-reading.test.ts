import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../src/core/finding.ts';
import { bitsOfReading } from '../../../src/core/suspects/bits-of-reading.ts';
import { suspectModel } from '../../../src/core/suspects/suspect-model.ts';
import { weighSuspects } from '../../../src/core/suspects/weigh.ts';
import { jobOf, judge, keyOn, packOf } from '../../support/judge.ts';
import { benchChecks, signals } from './bench-pack.ts';

/** A sensor or its wire: only the supply, once it is read, tells them apart. */
const pack = (group: string) => `${benchChecks}
suspects-basis: {kind: from-memory}
evidence:
  - {id: corners, title: Corners, sources: [{corners: [bench/signal]}]}
  - ${group}
suspects:
  - id: sensor
    title: sensor
    prior: 1
    wrong-part: {amount: 0, minutes: 0}
    expects: [{group: corners, shows: several, how: usually}]
  - id: wire
    title: wire
    prior: 1
    wrong-part: {amount: 0, minutes: 0}
    expects: [{group: corners, shows: several, how: usually}, {group: supply, shows: out, how: usually}]
`;

const bits = (group: string, snapshot: string, takes: (finding: Finding) => boolean): number => {
  const packs = [packOf(pack(group))];
  const job = jobOf(snapshot, packs);
  const { findings } = judge(pack(group), snapshot);
  const weighed = weighSuspects(job, suspectModel(packs, job.vehicle), findings);
  if (!weighed) throw new Error('nothing is out');
  return bitsOfReading(findings.filter(takes), weighed);
};

const bad = `{${signals({ LF: '0.50 V', RF: '0.50 V' })}}`;
const ofSupply = ({ check, verdict }: Finding) => check === 'bench/supply' && verdict === 'not-taken';
const supply = (more: string) =>
  `{id: supply, title: Supply, values: out, ${more} sources: [{finding: bench/supply}]}`;

describe('bits that readings are expected to give', () => {
  it('are those of the group that they would feed', () => {
    const some = bits(supply(''), keyOn(bad), ofSupply);
    expect(some).toBeGreaterThan(0.3);
    expect(some).toBeLessThan(1);
  });

  it('are none of readings that feed nothing, or nothing new', () => {
    expect(bits(supply(''), keyOn(bad), ({ check }) => check === 'bench/tank')).toBe(0);
    expect(bits(supply(''), keyOn(bad), ({ check }) => check === 'bench/signal')).toBe(0);
  });

  it('are fewer where the group shows as much by chance', () => {
    expect(bits(supply('by-chance: 0.4,'), keyOn(bad), ofSupply)).toBeLessThan(
      bits(supply(''), keyOn(bad), ofSupply) / 2,
    );
  });

  it('count for a group of one state where the reading may be taken in it', () => {
    const inState = (state: string) =>
      `{id: supply, title: Supply, values: out, sources: [{finding: bench/supply, in: [${state}]}]}`;
    expect(bits(inState('running'), keyOn(bad), ofSupply)).toBeCloseTo(
      bits(supply(''), keyOn(bad), ofSupply),
      12,
    );
    expect(bits(inState('rest'), keyOn(bad), ofSupply)).toBe(0);
  });
});
