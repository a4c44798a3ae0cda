import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import type { Job } from '../../src/core/job.ts';
import type { PreparedPacks } from '../../src/core/prepare/prepared-packs.ts';
import { openJob, readJob } from '../../src/input/job/read-job.ts';
import { emptyShop } from '../../src/input/job/shop.ts';
import { projectRoot } from './run.ts';

/** A job that somebody wrote down. */
export interface Written {
  readonly name: string;
  readonly job: Job;
}

/** What is really wrong with a written case, and what each test would find. */
export interface Answers {
  readonly cause: readonly string[];
  readonly results: Readonly<Record<string, string>>;
}

const shop = { ...emptyShop, labourRate: 85, currency: 'EUR', zone: 'Europe/Dublin' };

const readOne = (folder: string, name: string, prepared: PreparedPacks): Written => {
  const around = { prepared, shop, elsewhere: new Map<string, string>(), sameDefinition: () => true };
  const { job, problems } = readJob(openJob(readFileSync(join(folder, name), 'utf8')), around);
  if (!job || problems.length > 0) throw new Error(`${name}: ${JSON.stringify(problems)}`);
  return { name, job };
};

/** The jobs of the examples. */
export const examples = (prepared: PreparedPacks): Written[] => {
  const folder = join(projectRoot, 'examples');
  return readdirSync(folder)
    .filter((name) => name.startsWith('shuttle-'))
    .map((name) => readOne(folder, name, prepared));
};

/** The written cases with their answers, in the order of their numbers. */
export const cases = (prepared: PreparedPacks): (Written & { readonly answers: Answers })[] => {
  const folder = join(projectRoot, 'tests/cases');
  return readdirSync(folder)
    .filter((name) => name.endsWith('.key.yaml'))
    .sort((a, b) => Number.parseInt(a, 10) - Number.parseInt(b, 10))
    .map((key) => {
      const { cause, results } = parse(readFileSync(join(folder, key), 'utf8')) as Answers;
      const own = readOne(folder, key.replace('.key.yaml', '.yaml'), prepared);
      return { ...own, answers: { cause, results: results ?? {} } };
    });
};
