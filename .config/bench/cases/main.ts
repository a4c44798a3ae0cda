// `npm run bench:cases`: what the program makes of the written cases, and what following its advice comes to. Ends with
// exit code 1 where a target is not reached.
import { join } from 'node:path';
import { assess } from '../../../src/core/assess.ts';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { newestPacks, openLibrary } from '../../../src/shell/library.ts';
import { readCases } from './read-cases.ts';
import { type Score, scoreOf, summary } from './score-case.ts';
import { asOf, walk } from './walk.ts';

const root = process.env.BENCH_ROOT ?? '.';
const folder = process.env.BENCH_CASES ?? join(root, 'tests/cases');
const only = process.env.BENCH_ONLY ?? '';
const verbose = process.env.BENCH_VERBOSE === '1';
/** The cases are written for the newest edition of each pack. */
const packs = preparePacks(await newestPacks(openLibrary([join(root, 'rules')])));
const cases = readCases(folder, packs).filter(({ name }) => only === '' || name.startsWith(only));

const scores: Score[] = [];
for (const { name, key, job, problems } of cases) {
  if (!job) {
    console.log(`${name}: cannot be read: ${problems.slice(0, 3).join(' | ')}`);
    continue;
  }
  const sheet = assess(job, packs, asOf);
  const score = scoreOf(name, key, sheet, key.cause.length > 0 ? walk(job, key, packs) : null);
  scores.push(score);
  if (verbose || !score.good) console.log(score.line);
  if (verbose && only !== '') for (const line of score.details) console.log(`    ${line}`);
}
/** Cases from here on were written without sight of the packs. */
const blindFrom = 201;
const isBlind = ({ name }: { readonly name: string }): boolean => Number.parseInt(name, 10) >= blindFrom;
const sets = [
  ['all cases', () => true],
  [`cases below ${blindFrom}`, (one: { readonly name: string }) => !isBlind(one)],
  [`cases from ${blindFrom}`, isBlind],
] as const;
for (const [title, among] of only === '' ? sets : sets.slice(0, 1)) {
  const { lines, reached } = summary(scores.filter(among), cases.filter(among).length);
  console.log(`${title}:`);
  for (const line of lines) console.log(line);
  if (!reached) process.exitCode = 1;
}
