import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

// Not from run.ts, which would bring the sources along.
const projectRoot = new URL('../..', import.meta.url).pathname;

export interface Done {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs a program to its end, with nothing on its standard input. */
export const runProgram = (
  program: string,
  args: readonly string[],
  options: {
    readonly cwd: string;
    readonly env?: NodeJS.ProcessEnv;
    readonly uid?: number;
    readonly gid?: number;
  },
): Promise<Done> =>
  new Promise((resolve) => {
    const child = execFile(program, args, { ...options, maxBuffer: 2 ** 26 }, (error, stdout, stderr) => {
      const code = error === null ? 0 : typeof error.code === 'number' ? error.code : -1;
      resolve({ code, stdout, stderr });
    });
    child.stdin?.end();
  });

const must = async (done: Promise<Done>): Promise<string> => {
  const { code, stdout, stderr } = await done;
  if (code !== 0) throw new Error(`exit ${code}\n${stdout}${stderr}`);
  return stdout;
};

/** The package as it is packed, and an empty folder into which it was installed without a network. */
export interface Installed {
  /** What the tarball holds, by the paths in it. */
  readonly files: readonly string[];
  readonly top: string;
  /** The folder with `node_modules`. */
  readonly prefix: string;
  readonly remove: () => Promise<void>;
}

export const installPacked = async (): Promise<Installed> => {
  const top = await mkdtemp(join(tmpdir(), 'cornerwise-installed-'));
  const env = { ...process.env, npm_config_cache: join(top, 'cache'), npm_config_update_notifier: 'false' };
  const pack = ['pack', '--ignore-scripts', '--json', '--pack-destination', top];
  const [packed] = JSON.parse(await must(runProgram('npm', pack, { cwd: projectRoot, env }))) as [
    { filename: string; files: { path: string }[] },
  ];
  const prefix = join(top, 'place');
  await mkdir(prefix);
  const install = ['install', '--offline', '--no-audit', '--no-fund', '--prefix', prefix];
  await must(runProgram('npm', [...install, join(top, packed.filename)], { cwd: prefix, env }));
  return {
    files: packed.files.map(({ path }) => path),
    top,
    prefix,
    remove: () => rm(top, { recursive: true, force: true }),
  };
};
