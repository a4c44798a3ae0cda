import { execFileSync } from 'node:child_process';
import { mkdirSync, truncateSync, writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { jobText } from '../support/sweep.ts';
import { type Ended, shell } from './built-program.ts';

/**
 * What lies where a file is wanted and is none, or has no end: whatever it is, the program says so and ends. Each case is
 * a folder that shell lines run in, side by side.
 */
let top = '';
const folderOf = (name: string): string => join(top, name.replaceAll(/\W/gu, '-'));

const fill = (folder: string): void => {
  mkdirSync(join(folder, 'jobs'), { recursive: true });
  writeFileSync(join(folder, 'jobs/good.yaml'), jobText());
};

const pipe = (path: string): void => {
  execFileSync('mkfifo', [path]);
};

interface Case {
  readonly name: string;
  readonly make?: (folder: string) => void;
  readonly line: string;
  readonly code: number;
  readonly says: RegExp;
}

const isPipe = /this is a pipe, not a file/u;

const cases: readonly Case[] = [
  ...['check job.yaml', 'next job.yaml', 'add job.yaml key-on supply=12', 'fill job.yaml'].map((call) => ({
    name: `${call} on a pipe`,
    make: (folder: string) => pipe(join(folder, 'job.yaml')),
    line: `"$CW" ${call}`,
    code: 2,
    says: isPipe,
  })),
  {
    name: 'log and undo on a pipe',
    make: (folder) => pipe(join(folder, 'job.yaml')),
    line: '"$CW" log job.yaml noted vehicle; "$CW" undo job.yaml',
    code: 2,
    says: /this is a pipe[\s\S]*(?:pipe|on record)/u,
  },
  {
    name: 'a job as a pipe in a sweep',
    make: (folder) => pipe(join(folder, 'jobs/pipe.yaml')),
    line: '"$CW" sweep jobs/pipe.yaml jobs/good.yaml --fail-on never --format ndjson',
    code: 1,
    says: isPipe,
  },
  {
    name: 'a shop file as a pipe',
    make: (folder) => pipe(join(folder, 'jobs/cornerwise.yaml')),
    line: '"$CW" sweep jobs; echo $?; "$CW" check jobs/good.yaml',
    code: 2,
    says: /^2$[\s\S]*this is a pipe/mu,
  },
  {
    name: 'a pack as a pipe',
    make: (folder) => {
      mkdirSync(join(folder, 'rules/own'), { recursive: true });
      pipe(join(folder, 'rules/own/1.0.0.yaml'));
      writeFileSync(join(folder, 'jobs/own.yaml'), `packs: [own@1]\n${jobText()}`);
    },
    line: '"$CW" sweep jobs --rules rules --format ndjson --fail-on never',
    code: 1,
    says: isPipe,
  },
  { name: 'a device', line: '"$CW" check /dev/zero', code: 2, says: /this is a device, not a file/u },
  {
    name: 'a sparse file of 1.9 GB',
    make: (folder) => {
      writeFileSync(join(folder, 'large.yaml'), '');
      truncateSync(join(folder, 'large.yaml'), 1.9e9);
    },
    line: '(ulimit -v 4000000; "$CW" check large.yaml)',
    code: 2,
    says: /the file is 1812\.0 MiB/u,
  },
  { name: 'an endless pipe', line: 'yes | "$CW" check -', code: 2, says: /more than 2 MiB came in/u },
  {
    name: 'an endless device on standard input',
    line: '"$CW" check /dev/stdin < /dev/zero',
    code: 2,
    says: /more than 2 MiB came in/u,
  },
  {
    name: 'endless answers',
    line: 'yes "" | "$CW" fill jobs/good.yaml > /dev/null; tr "\\0" a < /dev/zero | "$CW" fill jobs/good.yaml | tail -1',
    code: 0,
    says: /come first/u,
  },
  {
    name: 'a pipe where one may be',
    line: 'cat jobs/good.yaml | "$CW" check /dev/stdin --fail-on never',
    code: 0,
    says: /Shuttle 4/u,
  },
  {
    name: 'user folders that cannot be made',
    line: 'XDG_CACHE_HOME=/proc/none XDG_STATE_HOME=/proc/none "$CW" sweep jobs --fail-on never && XDG_STATE_HOME=/proc/none "$CW" log jobs/good.yaml noted vehicle',
    code: 0,
    says: /put on record/u,
  },
  {
    name: 'a file of the system that says it is empty',
    line: '"$CW" check /proc/self/status',
    code: 2,
    says: /missing-key|yaml-syntax/u,
  },
  {
    name: 'a remembered night as a pipe',
    make: (folder) => pipe(join(folder, 'jobs/.cornerwise-sweep.ndjson')),
    line: '"$CW" sweep jobs --remember --fail-on never && "$CW" sweep jobs --remember --fail-on never',
    code: 0,
    says: /1 unchanged[\s\S]*moved aside/u,
  },
];

const outcomes = new Map<string, Ended>();

beforeAll(async () => {
  top = await mkdtemp(join(tmpdir(), 'cornerwise-faults-'));
  for (const { name, make } of cases) {
    fill(folderOf(name));
    make?.(folderOf(name));
  }
  const left = [...cases];
  const work = async (): Promise<void> => {
    for (let one = left.shift(); one; one = left.shift())
      outcomes.set(one.name, await shell(one.line, folderOf(one.name)));
  };
  await Promise.all([work(), work()]);
}, 600_000);

afterAll(() => rm(top, { recursive: true, force: true }));

describe('what is read', () => {
  it.each(cases)('ends and is told: $name', ({ name, code, says }) => {
    const ended = outcomes.get(name);
    expect(`${ended?.stdout}${ended?.stderr}`).toMatch(says);
    expect(ended?.code).toBe(code);
  });
});
