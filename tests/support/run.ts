import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { Readable, Writable } from 'node:stream';
import { readPlain } from '../../src/shell/disk/read-plain.ts';
import type { Io } from '../../src/shell/io.ts';
import { openPrompter } from '../../src/shell/prompter.ts';
import { run } from '../../src/shell/run.ts';

/** The top of the project, for commands that name its examples. */
export const projectRoot = new URL('../..', import.meta.url).pathname.replace(/\/$/u, '');

export interface Surroundings {
  readonly cwd?: string;
  /** Files of a fresh folder that the program runs in, instead of `cwd`, by their paths; gone afterwards. */
  readonly files?: Readonly<Record<string, string | Uint8Array>>;
  readonly stdin?: string | Uint8Array;
  readonly columns?: number | null;
  readonly isTerminal?: boolean;
  /** Somebody answers the questions, who is asked again where an answer cannot be read. */
  readonly person?: boolean;
  readonly env?: Readonly<Record<string, string>>;
  readonly now?: number;
}

export interface Outcome {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

const writeFiles = async (folder: string, files: NonNullable<Surroundings['files']>): Promise<void> => {
  for (const [name, content] of Object.entries(files)) {
    const path = join(folder, name);
    await mkdir(dirname(path), { recursive: true });
    await writeFile(path, content);
  }
};

/** Runs the program in process, with surroundings of the test's own. */
export const runCli = async (argv: readonly string[], surroundings: Surroundings = {}): Promise<Outcome> => {
  const { files, ...rest } = surroundings;
  if (files === undefined) return runIn(argv, rest);
  const cwd = await mkdtemp(join(tmpdir(), 'cornerwise-'));
  try {
    await writeFiles(cwd, files);
    return await runIn(argv, { ...rest, cwd });
  } finally {
    await rm(cwd, { recursive: true, force: true });
  }
};

const runIn = async (argv: readonly string[], surroundings: Surroundings): Promise<Outcome> => {
  let stdout = '';
  let stderr = '';
  const { stdin = '' } = surroundings;
  const io: Io = {
    cwd: surroundings.cwd ?? projectRoot,
    env: surroundings.env ?? {},
    zone: 'UTC',
    now: () => surroundings.now ?? Date.UTC(2026, 2, 2, 18),
    stdout: {
      write: (text) => {
        stdout += text;
      },
      isTerminal: surroundings.isTerminal ?? false,
      columns: surroundings.columns ?? null,
    },
    stderr: {
      write: (text) => {
        stderr += text;
      },
    },
    readStdin: async () => (typeof stdin === 'string' ? new TextEncoder().encode(stdin) : stdin),
    readFile: async (path) => readPlain(path),
    isInteractive: surroundings.person ?? false,
    openPrompter: () => {
      const output = new Writable({
        write: (chunk: Buffer, _, done) => {
          stdout += chunk.toString();
          done();
        },
      });
      const prompter = openPrompter(Readable.from([stdin]), output, false);
      return { ...prompter, isTerminal: surroundings.person ?? false };
    },
  };
  const code = await run(argv, io);
  return { code, stdout, stderr };
};
