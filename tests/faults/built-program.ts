import { spawn } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { projectRoot } from '../support/run.ts';

/** The program as it is installed. */
export const bin = join(projectRoot, 'bin/cornerwise.js');

export interface Ended {
  /** Null where it had to be ended by force. */
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Longer than any call takes on a machine that is busy with other things: whoever is not done by then hangs. */
const hangs = 120_000;

/**
 * Runs a line of the shell, in which `"$CW"` is the program.
 *
 * @param folder where it runs; the user's own folders are taken from it, too
 */
export const shell = (line: string, folder: string, env: Record<string, string> = {}): Promise<Ended> =>
  new Promise((resolve) => {
    const child = spawn('bash', ['-c', line], {
      cwd: folder,
      detached: true,
      stdio: ['ignore', 'pipe', 'pipe'],
      env: {
        PATH: process.env.PATH,
        CW: bin,
        XDG_CACHE_HOME: join(folder, '.own/cache'),
        XDG_STATE_HOME: join(folder, '.own/state'),
        ...env,
      },
    });
    let stdout = '';
    let stderr = '';
    child.stdout.on('data', (chunk) => {
      stdout += chunk;
    });
    child.stderr.on('data', (chunk) => {
      stderr += chunk;
    });
    const force = setTimeout(() => {
      if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
    }, hangs);
    child.on('close', (code) => {
      clearTimeout(force);
      resolve({ code, stdout, stderr });
    });
  });

/**
 * Runs lines of the shell by their names, two at a time, each in a folder of its own below `top`.
 *
 * @param prepare puts the files of a line into its folder
 */
export const runEach = async (
  lines: Iterable<readonly [name: string, line: string]>,
  top: string,
  prepare: (folder: string) => void,
  env: Record<string, string> = {},
): Promise<Map<string, Ended>> => {
  const outcomes = new Map<string, Ended>();
  const left = [...lines].entries();
  const work = async (): Promise<void> => {
    for (const [index, [name, line]] of left) {
      const folder = join(top, `case-${String(index)}`);
      mkdirSync(folder);
      prepare(folder);
      outcomes.set(name, await shell(line, folder, env));
      rmSync(folder, { recursive: true, force: true });
    }
  };
  await Promise.all([work(), work()]);
  return outcomes;
};
