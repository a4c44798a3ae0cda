import { join } from 'node:path';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Act } from '../../../src/core/acts.ts';
import { assessBriefly } from '../../../src/core/assess.ts';
import type { Job, State } from '../../../src/core/job.ts';
import { parseKey } from '../../../src/core/key.ts';
import type { Command } from '../../../src/core/now/command.ts';
import type { Now } from '../../../src/core/now/now.ts';
import { type PreparedPacks, preparedFor, preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { isRepair } from '../../../src/core/steps/staleness.ts';
import { commandText } from '../../../src/report/words/command-words.ts';
import { newestPacks, openLibrary } from '../../../src/shell/library.ts';
import { follow, type Round, type Somebody } from '../../support/follow-now.ts';
import { jobOf, keyOn, packOf } from '../../support/judge.ts';
import { longTests } from '../../support/long-tests.ts';
import { projectRoot } from '../../support/run.ts';
import { atFaults, atRandom, componentsOf } from '../../support/somebody.ts';
import { type Answers, cases, examples, type Written } from '../../support/written-jobs.ts';
import { changes } from '../changed-job.ts';
import { signals } from '../suspects/bench-pack.ts';
import { loopPack } from './small-pack.ts';

/** Whoever does what `now` says, whatever is found, comes to an end: a clear release, or somebody's decision. */

let prepared: PreparedPacks = preparePacks([]);
let shuttles: readonly Written[] = [];
let written: readonly (Written & { readonly answers: Answers })[] = [];
beforeAll(async () => {
  prepared = preparePacks(await newestPacks(openLibrary([join(projectRoot, 'rules')])));
  shuttles = examples(prepared);
  written = cases(prepared);
});

const most = 60;

/** Only some of a list, where the tests are not to go the long way. */
const some = <T>(all: readonly T[], every: number): readonly T[] =>
  longTests ? all : all.filter((_, place) => place % every === 0);

/** Random jobs that are walked: each takes about a second, and `WALKS=1000` takes a quarter of an hour. */
const walks = Number(process.env.WALKS ?? (longTests ? 30 : 10));

const lineOf = (line: Command | null): string => (line === null ? '' : commandText(line, 'f.yaml'));

const told = (rounds: readonly Round[]): string =>
  rounds.map(({ sheet: { now }, line }) => `${now.kind} ${now.id}: ${lineOf(line)}`).join('\n');

/** Checks of the shop's own doings. */
const ofTheShop = ['equipment', 'kept-hold-points'];

/** What was wrong when the vehicle was to be handed over: nothing may be that nobody repaired, decided or accepted. */
const wrongAtHandOver = ({ sheet: { now, faults, findings, holdPoints, dangers, job } }: Round): string[] => {
  if (now.kind !== 'hand-over') return [];
  const isDecided = job.log.some(({ did }) => did === 'declined');
  const out = findings.filter(
    ({ verdict, weight, waived, current, moment, kind }) =>
      verdict === 'out' &&
      (weight === 'hold' || (weight === 'look' && !moment && !isDecided && !ofTheShop.includes(kind))) &&
      waived === null &&
      current,
  );
  return [
    ...faults.map(({ component }) => `${component} is at fault`),
    ...out.map(({ id }) => `${id} is out`),
    ...dangers.filter(({ forbids }) => forbids.includes('drive')).map(({ id }) => `${id} forbids to drive`),
    ...holdPoints.filter(({ id, clear }) => id === 'release' && !clear).map(({ id }) => `${id} is not clear`),
  ].map((wrong) => `handed over, and ${wrong}`);
};

const actsOfState: Partial<Record<State, readonly Act[]>> = {
  cranking: ['crank'],
  running: ['crank'],
  driving: ['crank', 'drive'],
};

/** Acts that a thing to do takes: those of its test, or of the state that it reads. */
const actsOf = ({ id, command }: Now, among: PreparedPacks): readonly Act[] => {
  if (command?.kind === 'add') return actsOfState[command.state] ?? [];
  if (command?.kind !== 'log' || command.did !== 'tested')
    return among.steps.find((step) => step.id === id)?.acts ?? [];
  const test = parseKey(command.what ?? '').base;
  return among.tests.find((one) => one.id === test)?.acts ?? [];
};

/** A thing to do that a danger forbids. */
const forbiddenIn = ({ sheet: { now, dangers } }: Round, among: PreparedPacks): string[] => {
  const forbidden = dangers.flatMap(({ forbids }) => forbids);
  return actsOf(now, among)
    .filter((act) => forbidden.includes(act))
    .map((act) => `${now.kind} ${now.id} although to ${act} is forbidden`);
};

/** A decision that is asked for while there is something to do: a fault to repair. */
const decidedEarly = ({ sheet: { now, faults } }: Round): string[] => {
  if (now.kind !== 'decide' || now.title.kind === 'pass-on') return [];
  // What an eye saw of a module is confirmed only by its measurements; two repairs to no avail are enough.
  return faults
    .filter(({ lacks, spent }) => lacks.length === 0 && !spent)
    .map(({ component }) => `decide, although ${component} is at fault`);
};

/**
 * Walks a job to its end, and says what is wrong with the way there.
 *
 * @param faulty components at fault: once all of them are repaired, the job has to end as repaired
 */
const walk = (job: Job, who: Somebody, among = prepared, faulty: readonly string[] = []): string[] => {
  const { rounds, end } = follow(job, who, (one, at) => assessBriefly(one, among, at), most);
  const [last] = rounds.slice(-1);
  const closing = end.log.findLast(({ did }) => did === 'closed')?.closing ?? null;
  const wrong = rounds.flatMap((round) => [
    ...wrongAtHandOver(round),
    ...forbiddenIn(round, among),
    ...decidedEarly(round),
  ]);
  const isOver = last?.sheet.now.kind === 'none';
  if (!isOver) wrong.push(`not over after ${rounds.length} rounds:\n${told(rounds)}`);
  // A job that was closed before the walk began was closed by somebody else.
  const clear = last?.sheet.holdPoints.find(({ id }) => id === 'release')?.clear !== false;
  if (isOver && job.status !== 'closed' && closing === 'repaired' && !clear)
    wrong.push(`closed as repaired, and the release is not clear:\n${told(rounds)}`);
  const isMended = faulty.every((component) =>
    end.log.some((entry) => isRepair(entry) && entry.what === component && !entry.failed),
  );
  if (faulty.length > 0 && isMended && closing !== 'repaired')
    wrong.push(`mended, and closed as ${closing}:\n${told(rounds)}`);
  return wrong;
};

describe('doing what now says', () => {
  it('mends every written case, or ends with a decision, within 60 rounds', () => {
    const wrong = some(written, 16).flatMap(({ name, job, answers: { cause, results } }) => {
      const { suspects } = preparedFor(prepared, job.vehicle);
      const faulty = componentsOf(cause, suspects);
      const who = atFaults(cause, results, suspects);
      return walk(job, who, prepared, faulty).map((one) => `${name}: ${one}`);
    });
    expect(wrong).toEqual([]);
  }, 600_000);

  it('ends from every example, whatever is found', () => {
    const seeds = longTests ? [1, 2] : [1];
    const wrong = some(shuttles, 2).flatMap(({ name, job }, place) =>
      seeds.flatMap((seed) =>
        walk(job, atRandom(100 * place + seed)).map((one) => `${name} ${seed}: ${one}`),
      ),
    );
    expect(wrong).toEqual([]);
  }, 600_000);

  it('ends from any job, whatever is found', () => {
    const starts = [...shuttles, ...written];
    fc.assert(
      fc.property(fc.nat(), changes, fc.nat(), (which, change, seed) => {
        const start = starts[which % starts.length];
        if (!start) throw new Error('no job to start from');
        expect(walk(change(start.job, prepared.packs), atRandom(seed))).toEqual([]);
      }),
      { numRuns: walks, ...(longTests ? {} : { seed: 15 }) },
    );
  }, 1_800_000);

  it('ends from a thousand random jobs of a small pack', () => {
    const small = packOf(loopPack);
    const among = preparePacks([small], []);
    const start = jobOf(`${keyOn(`{${signals()}, battery: 12.5 V}`)}costs: {labour-rate: 60 / h}\n`, [small]);
    fc.assert(
      fc.property(changes, fc.nat(), (change, seed) => {
        expect(walk(change(start, [small]), atRandom(seed), among)).toEqual([]);
      }),
      { numRuns: 1000 },
    );
  }, 600_000);
});
