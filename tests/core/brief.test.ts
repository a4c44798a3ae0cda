import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { assess, assessBriefly } from '../../src/core/assess.ts';
import type { Finding } from '../../src/core/finding.ts';
import type { Job } from '../../src/core/job.ts';
import { failLevels, fails, levelOf } from '../../src/core/level.ts';
import type { Pack } from '../../src/core/pack.ts';
import { type PreparedPacks, preparePacks } from '../../src/core/prepare/prepared-packs.ts';
import { rankSuspects } from '../../src/core/suspects/rank.ts';
import type { BriefWorksheet, Worksheet } from '../../src/core/worksheet.ts';
import { openJob, readJob } from '../../src/input/job/read-job.ts';
import { emptyShop } from '../../src/input/job/shop.ts';
import { newestPacks, openLibrary } from '../../src/shell/library.ts';
import { evening, instant, jobOf, keyOn, packOf } from '../support/judge.ts';
import { projectRoot } from '../support/run.ts';
import { changes } from './changed-job.ts';

/** A brief assessment leaves out findings that are superseded, and says the same in all else. */

let packs: readonly Pack[] = [];
let prepared: PreparedPacks = preparePacks([]);
let jobs: readonly Job[] = [];
beforeAll(async () => {
  packs = await newestPacks(openLibrary([join(projectRoot, 'rules')]));
  prepared = preparePacks(packs);
  const folder = join(projectRoot, 'examples');
  const names = readdirSync(folder).filter((name) => name.startsWith('shuttle-'));
  jobs = names.map((name) => {
    const shop = { ...emptyShop, labourRate: 85, currency: 'EUR', zone: 'Europe/Dublin' };
    const around = { prepared, shop, elsewhere: new Map<string, string>(), sameDefinition: () => true };
    const { job, problems } = readJob(openJob(readFileSync(join(folder, name), 'utf8')), around);
    if (!job) throw new Error(`${name}: ${JSON.stringify(problems)}`);
    return job;
  });
});

const levels = (findings: readonly Finding[]) => ({
  fails: failLevels.map((level) => fails(findings, level)),
  weights: findings.map(levelOf).filter((weight) => weight !== null),
});

const newestOf = (findings: readonly Finding[]) => findings.filter(({ newest }) => newest);

/** What a whole and a brief sheet must have in common; all of the ranking hangs on what is compared of it each time. */
const inCommon = (
  { findings, ranking, diagnosis: _, beforeAfter: __, ...sheet }: Worksheet,
  wholeRanking: boolean,
) => ({
  ...sheet,
  levels: levels(findings),
  newest: newestOf(findings),
  suspects: ranking?.suspects.map(({ id, probability }) => [id, probability]),
  ranking: ranking && wholeRanking ? { ...ranking } : null,
});

const ranked = (sheet: BriefWorksheet): Worksheet => ({
  ...sheet,
  ranking: sheet.diagnosis && rankSuspects(sheet.diagnosis.weighed),
  beforeAfter: null,
});

const bothOf = (job: Job, at: number, among = prepared) => ({
  whole: assess(job, among, at),
  brief: ranked(assessBriefly(job, among, at)),
});

/** Instants at which something is taken or logged, every other one, and one after all of them. */
const instantsOf = ({ opened, snapshots, log }: Job): number[] => {
  const all = [...snapshots, ...log].map(({ stamp }) => stamp.at);
  const some = [...new Set(all)].filter((_, place) => place % 2 === 0);
  return [...some, Math.max(opened, ...all) + 3_600_000];
};

describe('a brief assessment', () => {
  it('says the same of every example, at any time', () => {
    let left = 0;
    for (const job of jobs) {
      const times = instantsOf(job);
      for (const at of times) {
        const { whole, brief } = bothOf(job, at);
        const last = at === times.at(-1);
        expect(inCommon(brief, last)).toEqual(inCommon(whole, last));
        left += whole.findings.length - brief.findings.length;
      }
    }
    expect(left).toBeGreaterThan(50);
  });

  it('says the same whatever is read, logged, accepted or known of the vehicle', () => {
    fc.assert(
      fc.property(fc.nat(), changes, fc.nat(), (which, change, when) => {
        const example = jobs[which % jobs.length];
        if (!example) throw new Error('there are no examples');
        const job = change(example, packs);
        const times = instantsOf(job);
        for (const at of [times.at(-1) ?? 0, times[when % times.length] ?? 0]) {
          const { whole, brief } = bothOf(job, at);
          expect(inCommon(brief, false)).toEqual(inCommon(whole, false));
          const ids = new Set(whole.findings.map(({ id }) => id));
          for (const { id } of brief.findings) expect(ids).toContain(id);
        }
      }),
      { numRuns: 30 },
    );
  });

  const pack = packOf(`checks:
  - {id: band, kind: range, title: band, of: position, in: [key-on, running], basis: {kind: from-memory}, tiers: [{weight: hold, between: [1 V, 4 V]}]}
  - {id: codes, kind: stored-codes, title: codes, basis: {kind: from-memory}, weights: {present: hold}}
`);
  const twice = (more: string) =>
    jobOf(
      `${keyOn('{position: {LF: 2.4 V}}', '    codes: [{code: C1A01, status: present}]\n')}
  - {id: again, at: 2026-03-02T09:40, state: key-on, readings: {position: {LF: 4.6 V}}, codes: []}
${more}`,
      [pack],
    );
  const idsOf = ({ findings }: Worksheet) => findings.map(({ id }) => id).filter((id) => id.includes('@'));

  it('leaves out a reading that was read again in its state, and an older list of codes', () => {
    const { whole, brief } = bothOf(twice(''), instant(evening), preparePacks([pack]));
    expect(idsOf(whole)).toEqual([
      'bench/band:LF@as-found',
      'bench/band:LF@again',
      'bench/codes:C1A01@as-found',
      'bench/codes:codes@again',
    ]);
    expect(idsOf(brief)).toEqual(['bench/band:LF@again', 'bench/codes:codes@again']);
  });

  it('keeps older lists of codes where a waiver may name what is on them', () => {
    const waived = `waivers:
  - {finding: "bench/codes:C1A01", reason: known, by: the shop, until: 2026-03-09}
`;
    const { whole, brief } = bothOf(twice(waived), instant(evening), preparePacks([pack]));
    expect(whole.warnings).toEqual([]);
    expect(brief.warnings).toEqual([]);
  });
});
