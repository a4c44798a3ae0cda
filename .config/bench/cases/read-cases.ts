import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import type { Job } from '../../../src/core/job.ts';
import type { PreparedPacks } from '../../../src/core/prepare/prepared-packs.ts';
import { openJob, readJob } from '../../../src/input/job/read-job.ts';
import { emptyShop } from '../../../src/input/job/shop.ts';

/** What is really wrong with a written case, and what every test would find. */
export interface Key {
  readonly cause: readonly string[];
  readonly alike: readonly string[];
  readonly firstTests: readonly string[];
  readonly neverFirst: readonly string[];
  readonly dangers: readonly string[];
  readonly verdicts: Readonly<Record<string, string>>;
  readonly results: Readonly<Record<string, string>>;
}

export interface Case {
  readonly name: string;
  readonly key: Key;
  /** Null where the program cannot read the file. */
  readonly job: Job | null;
  readonly problems: readonly string[];
}

const readOne = (folder: string, name: string, prepared: PreparedPacks): Case => {
  const key = parse(readFileSync(join(folder, `${name}.key.yaml`), 'utf8')) as Key;
  const context = {
    prepared,
    shop: emptyShop,
    elsewhere: new Map<string, string>(),
    sameDefinition: () => true,
  };
  const text = readFileSync(join(folder, `${name}.yaml`), 'utf8');
  const { job, problems } = readJob(openJob(text), context);
  return {
    name,
    key: { ...key, results: key.results ?? {} },
    job: problems.length > 0 ? null : job,
    problems: problems.map(({ line, message }) => `${line}: ${message}`),
  };
};

/**
 * Reads every written case of a folder with its key, in the order of their numbers.
 *
 * @param prepared the packs that all cases are judged by, whatever ranges their files name
 */
export const readCases = (folder: string, prepared: PreparedPacks): Case[] =>
  readdirSync(folder)
    .filter((file) => file.endsWith('.key.yaml'))
    .map((file) => file.slice(0, -'.key.yaml'.length))
    .sort((a, b) => Number.parseInt(a, 10) - Number.parseInt(b, 10))
    .map((name) => readOne(folder, name, prepared));
