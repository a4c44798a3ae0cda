import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/core/assess.ts';
import { preparePacks } from '../../src/core/prepare/prepared-packs.ts';
import type { Worksheet } from '../../src/core/worksheet.ts';
import {
  evening,
  findingOf,
  holdPointOf,
  instant,
  jobOf,
  judge,
  keyOn,
  packOf,
  said,
  stepOf,
} from '../support/judge.ts';

const pack = `checks:
  - {id: rails, kind: range, title: Rails, of: position, in: [key-on, running], basis: {kind: from-memory}, tiers: [{weight: hold, between: [0.25 V, 4.75 V]}]}
  - {id: axle, kind: left-right, title: Axle, of: position, in: [key-on, running], basis: {kind: from-memory}, tiers: [{weight: look, between: [-0.5 V, 0.5 V]}]}
  - {id: codes, kind: stored-codes, title: Codes, basis: {kind: from-memory}, weights: {stored: hold}}
steps:
  - {id: verify, title: Verify, minutes: 10}
  - {id: learn, title: Learn, minutes: 15, when: {did: replaced, what: sensor}, answered-by: [{did: calibrated, what: ride-height}], undone-by: [{did: work}]}
  - {id: clear, title: Clear, minutes: 5, after: [learn], answered-if: {code-list: after-clear, state: key-on}}
hold-points:
  - {id: release, title: Release, clear-when: {all: [{no-finding: {weight: hold}}, {steps: {}}, {evidence: fresh}, {cost: within-authorised}]}}`;

const snapshots = [
  '  - {id: a, at: 2026-03-02T08:40, state: key-on, readings: {position: {LF: 2.48 V, RF: 2.55 V, LR: 0.12 V, RR: 2.61 V}}, codes: [{code: C1A21}]}',
  '  - {id: b, at: 2026-03-02T08:50, state: running, readings: {position: {LF: 2.48 V, RF: 2.55 V, LR: 0.12 V, RR: 2.61 V}}}',
  '  - {id: c, at: 2026-03-02T11:30, state: key-on, readings: {position: {LF: 2.48 V, RF: 2.55 V, LR: 2.40 V, RR: 2.61 V}}, codes: []}',
  '  - {id: d, at: 2026-03-02T11:40, state: running, readings: {position: {LF: 2.48 V, RF: 2.55 V, LR: 2.40 V, RR: 2.61 V}}}',
];
const entries = [
  '  - {at: 2026-03-02T08:45, did: completed, what: verify}',
  '  - {at: 2026-03-02T10:30, did: replaced, what: sensor.LR}',
  '  - {at: 2026-03-02T11:10, did: calibrated, what: ride-height}',
  '  - {at: 2026-03-02T11:20, did: cleared, what: codes}',
];
const bodyOf = (shots: readonly string[], log: readonly string[], more = ''): string =>
  `snapshots:\n${shots.join('\n')}\nlog:\n${log.join('\n')}\n${more}`;
const whole = bodyOf(snapshots, entries);

/** A worksheet without the places in the file, which alone tell two orders of one job apart. */
const judgement = ({ job: _job, ...rest }: Worksheet) => rest;

describe('assess', () => {
  it('gives deep-equal worksheets for the same inputs, and leaves its inputs alone', () => {
    const packs = [packOf(pack)];
    const job = jobOf(whole, packs);
    const before = structuredClone(job);
    const first = assess(job, preparePacks(packs), instant(evening));
    expect(assess(job, preparePacks(packs), instant(evening))).toEqual(first);
    expect(assess(jobOf(whole, packs), preparePacks([packOf(pack)]), instant(evening)).findings).toEqual(
      first.findings,
    );
    expect(job).toEqual(before);
  });

  it('says which packs it used', () => {
    expect(judge(pack, whole).packs).toEqual([{ id: 'bench', version: '1.0.0', sha256: 'sha' }]);
  });

  it('of a finished job finds everything done and the release clear', () => {
    const sheet = judge(pack, whole);
    expect(sheet.findings.filter(({ newest, verdict }) => newest && verdict === 'out')).toEqual([]);
    expect(sheet.steps.map(({ state }) => state)).toEqual(['done', 'done', 'done']);
    expect(holdPointOf(sheet, 'release')).toMatchObject({ clear: true, reasons: [] });
    expect(sheet.warnings).toEqual([]);
  });

  it('lists outstanding steps first, those that are done or not needed after them', () => {
    const sheet = judge(pack, bodyOf(snapshots.slice(0, 2), entries.slice(0, 2)));
    expect(sheet.steps.map(({ id, state }) => `${id} ${state}`)).toEqual([
      'readings/key-on ready',
      'readings/running ready',
      'bench/learn ready',
      'bench/clear waiting',
      'bench/verify done',
    ]);
  });

  it('takes several packs together: a check of one judges what another declares alike', () => {
    const sheet = judge(
      [
        'checks: []',
        'pack: second\nchecks: [{id: x, kind: range, title: X, of: supply, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, at-least: 11.8 V}]}]',
      ],
      keyOn('{supply: 11.00 V}'),
    );
    expect(sheet.findings.map(({ id }) => id)).toEqual(['second/x:supply@as-found']);
  });

  it('does not care in which order snapshots and entries stand in the file, only about their times', () => {
    const reference = judgement(judge(pack, whole));
    const shuffled = <T>(list: readonly T[]) =>
      fc.shuffledSubarray([...list], { minLength: list.length, maxLength: list.length });
    fc.assert(
      fc.property(shuffled(snapshots), shuffled(entries), (shots, log) => {
        expect(judgement(judge(pack, bodyOf(shots, log)))).toEqual(reference);
      }),
      { numRuns: 40 },
    );
  });

  it('of two entries at one time keeps the order of the file', () => {
    const tie = (...log: string[]) =>
      stepOf(
        judge(
          pack,
          bodyOf(snapshots, ['  - {at: 2026-03-02T10:30, did: replaced, what: sensor.LR}', ...log]),
        ),
        'learn',
      ).state;
    const learned = '  - {at: 2026-03-02T11:10, did: calibrated, what: ride-height}';
    const worked = '  - {at: 2026-03-02T11:10, did: replaced, what: sensor.LR}';
    expect(tie(learned, worked)).toBe('ready');
    expect(tie(worked, learned)).toBe('done');
  });
});

describe('an instant in the past', () => {
  it('counts what was read at that very instant', () => {
    const { job, warnings } = judge(pack, whole, '2026-03-02T11:30');
    expect(job.snapshots.map(({ id }) => id)).toEqual(['a', 'b', 'c']);
    expect(warnings.filter(({ kind }) => kind === 'snapshot-in-future')).toHaveLength(1);
  });

  it('leaves out what came later, and says so', () => {
    const sheet = judge(pack, whole, '2026-03-02T10:00');
    expect(sheet.warnings).toEqual([
      { kind: 'snapshot-in-future', snapshot: 'c', at: instant('2026-03-02T11:30') },
      { kind: 'snapshot-in-future', snapshot: 'd', at: instant('2026-03-02T11:40') },
      ...[1, 2, 3].map((order) => ({ kind: 'log-in-future', entry: expect.objectContaining({ order }) })),
    ]);
    expect(sheet.job.snapshots.map(({ id }) => id)).toEqual(['a', 'b']);
    expect(sheet.job.log).toHaveLength(1);
    expect(said(findingOf(sheet, 'rails', 'LR', 'a'))).toBe('out hold');
    expect(stepOf(sheet, 'learn').state).toBe('not-needed');
  });

  it('judges as a file would that ends there', () => {
    const then = judge(pack, whole, '2026-03-02T10:00');
    const ended = judge(pack, bodyOf(snapshots.slice(0, 2), entries.slice(0, 1)), '2026-03-02T10:00');
    expect({ ...judgement(then), warnings: [] }).toEqual(judgement(ended));
  });

  it('counts what happened at that very instant', () => {
    const then = judge(pack, whole, '2026-03-02T11:40');
    expect(then.warnings).toEqual([]);
    expect(then.job.snapshots.map(({ id }) => id)).toContain('d');
    expect(judge(pack, whole, '2026-03-02T11:20').job.log).toHaveLength(4);
    expect(judge(pack, whole, '2026-03-02T11:39').warnings).toHaveLength(1);
  });

  it('knows only the authorisations given by then', () => {
    const costs = `costs: {authorised: [{at: 2026-03-02T09:00, amount: 100}, {at: 2026-03-02T15:00, amount: 500}], lines: [{kind: part, what: sensor.LR, amount: 138}]}`;
    const release = (asOf: string) =>
      holdPointOf(judge(pack, bodyOf(snapshots, entries, costs), asOf), 'release').clear;
    expect(release('2026-03-02T14:59')).toBe(false);
    expect(release('2026-03-02T15:00')).toBe(true);
  });
});

describe('waivers', () => {
  const low = keyOn('{position: {LF: 0.10 V, RF: 0.10 V, LR: 2.50 V, RR: 2.50 V}}');
  const waiver = (finding: string, more = '') =>
    `waivers: [{finding: ${finding}, reason: tested by hand, by: workshop lead, until: 2026-03-09${more}}]`;
  const waived = (finding: string, asOf = evening, zone = 'UTC') =>
    judge(pack, `zone: ${zone}\n${low}\n${waiver(finding)}`, asOf)
      .findings.filter(({ waived: by }) => by !== null)
      .map(({ id }) => id);

  it('accept a check, or one subject of it', () => {
    expect(waived('bench/rails')).toEqual(
      ['LF', 'RF', 'LR', 'RR'].map((corner) => `bench/rails:${corner}@as-found`),
    );
    expect(waived('bench/rails:RF')).toEqual(['bench/rails:RF@as-found']);
  });

  it('hold to the end of their day in the zone of the job', () => {
    expect(waived('bench/rails:RF', '2026-03-09T23:59')).toHaveLength(1);
    expect(waived('bench/rails:RF', '2026-03-10T00:00')).toEqual([]);
    // Midnight in Auckland, thirteen hours ahead in March, is eleven in the morning in UTC.
    expect(waived('bench/rails:RF', '2026-03-09T10:59', 'Pacific/Auckland')).toHaveLength(1);
    expect(waived('bench/rails:RF', '2026-03-09T11:00', 'Pacific/Auckland')).toEqual([]);
  });

  it('are told once they have ended', () => {
    const ended = judge(pack, `${low}\n${waiver('bench/rails:RF')}`, '2026-03-10T00:00');
    expect(ended.warnings).toEqual([
      { kind: 'waiver-ended', finding: 'bench/rails:RF', until: '2026-03-09' },
    ]);
    expect(judge(pack, `${low}\n${waiver('bench/rails:RF')}`, '2026-03-09T12:00').warnings).toEqual([]);
  });

  it('are void, and told, where the check no longer means what was accepted', () => {
    const packs = [packOf(pack)];
    const sheet = (same: boolean | null) => {
      const job = jobOf(`${low}\n${waiver('bench/rails:RF', ', under: 0.9.0')}`, packs, null, () => same);
      return assess(job, preparePacks(packs), instant(evening));
    };
    const accepted = (same: boolean | null) => findingOf(sheet(same), 'rails', 'RF').waived !== null;
    expect(accepted(true)).toBe(true);
    expect(accepted(false)).toBe(false);
    expect(accepted(null)).toBe(false);
    expect(sheet(false).warnings).toEqual([{ kind: 'waiver-void', finding: 'bench/rails:RF' }]);
  });

  it('that match nothing are told', () => {
    const sheet = judge(pack, `${low}\n${waiver('bench/rails:XX')}`);
    expect(sheet.warnings).toEqual([{ kind: 'waiver-matches-nothing', finding: 'bench/rails:XX' }]);
  });
});
