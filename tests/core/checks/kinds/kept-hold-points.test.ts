import { describe, expect, it } from 'vitest';
import { judge, keyOn } from '../../../support/judge.ts';

const pack = `checks:
  - {id: rails, kind: range, title: Clear of the rails, of: position, in: [key-on], tiers: [{weight: hold, between: [0.25 V, 4.75 V]}], basis: {kind: common-practice}}
  - {id: kept, kind: kept-hold-points, title: Kept hold points, weight: hold, basis: {kind: common-practice}}
hold-points:
  - {id: release, title: Release, clear-when: {no-finding: {weight: hold}}}
`;
const signals = (leftRear: string) => `{position: {LF: 2.4 V, RF: 2.5 V, LR: ${leftRear}, RR: 2.4 V}}`;
const later = '  - {id: after, at: 2026-03-02T11:00, state: key-on, readings: {position: {LR: 2.4 V}}}\n';
const released = (at: string, more = '') =>
  `log: [{at: 2026-03-02T${at}, did: released, what: vehicle${more}}]\n`;
const sheetOf = (job: string) => judge(pack, job);
const found = (job: string) =>
  sheetOf(job)
    .findings.filter(({ kind }) => kind === 'kept-hold-points')
    .map(({ subject, verdict, weight }) => `${subject}: ${verdict} ${weight}`);

describe('an entry that somebody typed against a hold point', () => {
  it('is a finding, judged by what was known when it was written', () => {
    expect(found(keyOn(signals('0.1 V')) + released('10:00'))).toEqual(['released vehicle: out hold']);
    expect(found(keyOn(signals('0.1 V'), later) + released('10:00'))).toEqual(['released vehicle: out hold']);
    expect(found(keyOn(signals('0.1 V'), later) + released('11:30'))).toEqual([]);
    expect(found(keyOn(signals('2.4 V')) + released('10:00'))).toEqual([]);
  });

  it('is none where it says why and who', () => {
    const job = keyOn(signals('0.1 V')) + released('10:00', ', despite: the driver insists, by: lead');
    expect(found(job)).toEqual([]);
    expect(sheetOf(job).warnings).toMatchObject([{ kind: 'despite', despite: 'the driver insists' }]);
  });

  it('holds the release, and wants its reason or a waiver', () => {
    const job = `${keyOn(signals('0.1 V'), later)}log: [{at: 2026-03-02T10:00, did: closed, result: repaired}]\n`;
    const { now, holdPoints } = sheetOf(job);
    expect(holdPoints).toMatchObject([{ id: 'release', clear: false }]);
    expect(now).toMatchObject({ kind: 'correct', title: { entry: 'closed' } });
    const waived = 'waivers: [{finding: bench/kept, reason: known, by: lead, until: 2026-04-01}]\n';
    expect(sheetOf(job + waived).holdPoints).toMatchObject([{ clear: true }]);
  });

  it('is none of a job that ended without a repair', () => {
    const declined = 'log: [{at: 2026-03-02T10:00, did: closed, result: declined, reason: dear, by: desk}]\n';
    expect(found(keyOn(signals('0.1 V')) + declined)).toEqual([]);
  });
});
