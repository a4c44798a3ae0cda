import { spawnSync } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { hostname, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach } from 'vitest';
import type { Holder } from '../../../src/shell/disk/lock.ts';
import { lockPath } from '../../../src/shell/disk/lock.ts';
import type { Io } from '../../../src/shell/io.ts';
import { runCli } from '../../support/run.ts';

/** A job that nothing is wrong with, laid out by hand. */
export const job = `worksheet: 1   # by hand
job: S9-0412
title: 'Left rear sits low'

opened: 2026-03-02T08:15
zone: Europe/Dublin
status: open
packs: [position-signals@1, supply-charging@1]
vehicle: {name: Shuttle 9,   layout: four-corner-air}

snapshots:
  - id: as-found
    at:    2026-03-02T08:40
    state: key-on   # before anything was touched
log: []
x-bay: 4`;

const folders: string[] = [];

afterEach(async () => {
  for (const folder of folders.splice(0)) await rm(folder, { recursive: true, force: true });
});

/** A fresh folder that is gone after the test. */
export const freshFolder = async (): Promise<string> => {
  const folder = await mkdtemp(join(tmpdir(), 'cornerwise-save-'));
  folders.push(folder);
  return folder;
};

/** A job file in a fresh folder of its own. */
export const jobFile = async (content: string | Uint8Array = job): Promise<string> => {
  const file = join(await freshFolder(), 'job.yaml');
  await writeFile(file, content);
  return file;
};

/** What lies beside a file, hidden things too; the folder of records is left out. */
export const beside = async (file: string): Promise<string[]> =>
  (await readdir(dirname(file))).filter((name) => name !== 'state').sort();

export const textOf = (file: string): Promise<string> => readFile(file, 'utf8');

const surroundings = (file: string) => ({
  cwd: dirname(file),
  env: { XDG_STATE_HOME: join(dirname(file), 'state') },
  now: Date.UTC(2026, 2, 2, 12),
});

/** The program, called in the folder of a file. */
export const call = (file: string, ...words: string[]): ReturnType<typeof runCli> =>
  runCli(words, surroundings(file));

/** The surroundings of the program in the folder of a file; it prints nothing and asks nothing. */
export const ioBeside = (file: string, env: Io['env'] = surroundings(file).env): Io => {
  const unused = (): never => {
    throw new Error('a test of files neither reads nor asks');
  };
  return {
    cwd: dirname(file),
    env,
    now: () => surroundings(file).now,
    zone: 'UTC',
    stdout: { write: unused, isTerminal: false, columns: null },
    stderr: { write: unused },
    readStdin: unused,
    readFile: (path) => readFile(path),
    isInteractive: false,
    openPrompter: unused,
  };
};

/** The number of a process that has ended. */
export const endedPid = (): number => spawnSync(process.execPath, ['-e', '']).pid;

/** A lock as a process of this machine would have written it. */
export const holderOf = (file: string, parts: Partial<Holder> = {}): Holder => ({
  pid: process.pid,
  host: hostname(),
  at: '2026-03-02T08:00:00.000Z',
  token: 'a-token-of-the-test',
  temporary: join(dirname(file), '.job.yaml.0123abcd.part'),
  ...parts,
});

/** Puts a lock beside a file, as another writer would. */
export const plantLock = async (file: string, parts: Partial<Holder> = {}): Promise<string> => {
  const path = lockPath(file);
  await writeFile(path, JSON.stringify(holderOf(file, parts)));
  return path;
};
