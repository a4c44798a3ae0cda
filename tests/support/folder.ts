import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';
import { type Outcome, runCli, type Surroundings } from './run.ts';

/** A folder of a test's own, in which one command follows another; gone when the test is over. */
export interface Folder {
  readonly path: string;
  readonly run: (argv: readonly string[], more?: Surroundings) => Promise<Outcome>;
  readonly read: (name: string) => Promise<string>;
  readonly write: (name: string, content: string | Uint8Array) => Promise<void>;
  /** Names of what lies in it, hidden files too. */
  readonly names: () => Promise<string[]>;
}

/** Five packs, as the shop file of a workshop names them. */
const shopFile = `packs: [position-signals@1, supply-charging@1, air-supply@1, module-replacement@1, handover@1]
zone: Europe/Dublin
`;

export const makeFolder = async (
  files: Readonly<Record<string, string | Uint8Array>> = {},
): Promise<Folder> => {
  const top = await mkdtemp(join(tmpdir(), 'cornerwise-'));
  onTestFinished(() => rm(top, { recursive: true, force: true }));
  const path = join(top, 'jobs');
  await mkdir(path);
  const write = async (name: string, content: string | Uint8Array): Promise<void> => {
    await mkdir(dirname(join(path, name)), { recursive: true });
    await writeFile(join(path, name), content);
  };
  for (const [name, content] of Object.entries({ 'cornerwise.yaml': shopFile, ...files })) {
    await write(name, content);
  }
  const env = { XDG_STATE_HOME: join(top, 'state'), XDG_CACHE_HOME: join(top, 'cache') };
  return {
    path,
    run: (argv, more = {}) => runCli(argv, { cwd: path, env, ...more }),
    read: (name) => readFile(join(path, name), 'utf8'),
    write,
    names: async () => (await readdir(path)).sort(),
  };
};

/** A job of a test: a vehicle that nothing was read of yet. */
export const emptyJob = `# The job of a test.
worksheet: 1
job: s4
title: Sits low
opened: 2026-03-02T07:00
status: open
vehicle:
  name: Shuttle 4
  layout: four-corner-air
  battery: flooded   # by its label
  charging: fixed
instruments:
  meter: {accuracy: 0.5 % + 0.02 V, shows: 0.01 V}
`;

/** What refuses to write says so, ends with 2, prints nothing else, and leaves all files as they were. */
export const refusal = async (
  folder: Folder,
  argv: readonly string[],
  more: Surroundings = {},
): Promise<string> => {
  const before = await Promise.all(
    (await folder.names()).map(async (name) => [name, await contentOf(folder, name)]),
  );
  const { code, stdout, stderr } = await folder.run(argv, more);
  if (code !== 2 || stdout !== '') throw new Error(`exit ${code}\n${stdout}\n${stderr}`);
  const after = await Promise.all(
    (await folder.names()).map(async (name) => [name, await contentOf(folder, name)]),
  );
  if (JSON.stringify(after) !== JSON.stringify(before)) throw new Error(`a file was changed:\n${stderr}`);
  return stderr;
};

const contentOf = (folder: Folder, name: string): Promise<string> =>
  folder.read(name).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'EISDIR') return '(a folder)';
    throw error;
  });
