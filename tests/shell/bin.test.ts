import { execFile } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { cp, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { projectRoot, runCli } from '../support/run.ts';

/** The real program in a process of its own. */
const bin = join(projectRoot, 'bin/cornerwise.js');

const spawnBin = (
  args: readonly string[],
  stdin = '',
  program = bin,
): Promise<{ code: number; stdout: string; stderr: string }> =>
  new Promise((resolve) => {
    const child = execFile(
      process.execPath,
      [program, ...args],
      { cwd: projectRoot, maxBuffer: 2 ** 26 },
      (error, stdout, stderr) => {
        resolve({ code: typeof error?.code === 'number' ? error.code : 0, stdout, stderr });
      },
    );
    child.stdin?.end(stdin);
  });

const job = 'examples/shuttle-07-left-rear-low.yaml';
const asOf = ['--as-of', '2026-03-02T18:00'];

describe('bin/cornerwise.js', () => {
  it('prints what the program prints in process', async () => {
    expect(await spawnBin(['check', job, ...asOf])).toEqual(await runCli(['check', job, ...asOf]));
  });

  it.each([[['--version']], [['--help']], [['check', '--help']]])('prints %j as in process', async (call) => {
    expect(await spawnBin(call)).toEqual(await runCli(call));
  });

  it('reads standard input', async () => {
    const { code, stderr } = await spawnBin(['check', '-'], 'worksheet: 2\n');
    expect(code).toBe(2);
    expect(stderr).toContain('-:1:12');
  });

  it('refuses a wrong call without a stack trace', async () => {
    const { code, stderr } = await spawnBin(['check', job, '--nonsense']);
    expect(code).toBe(2);
    expect(stderr).not.toMatch(/\n\s+at /u);
  });

  it('survives a reader that stops early', async () => {
    const { code } = await new Promise<{ code: number | null }>((resolve) => {
      const child = execFile(
        'bash',
        [
          '-c',
          `"${process.execPath}" "${bin}" check ${job} --all --format json | head -c 10; exit \${PIPESTATUS[0]}`,
        ],
        { cwd: projectRoot },
        (error) => resolve({ code: typeof error?.code === 'number' ? error.code : 0 }),
      );
      child.stdin?.end();
    });
    expect(code).toBe(1);
  });

  it('gives schemas as JSON', async () => {
    for (const name of ['job', 'pack', 'shop', 'output']) {
      const { code, stdout } = await spawnBin(['schema', name]);
      expect(code).toBe(0);
      expect(JSON.parse(stdout)).toHaveProperty('$schema');
    }
  });
});

/** The sources read every pack from its file; the bundle has them read ahead. */
describe('the packs that the build read ahead', () => {
  const jobs = readdirSync(join(projectRoot, 'examples'))
    .filter((name) => /^shuttle.*\.yaml$/u.test(name))
    .map((name) => `examples/${name}`);
  let rules = '';
  beforeAll(async () => {
    rules = await mkdtemp(join(tmpdir(), 'cornerwise-rules-'));
    await cp(join(projectRoot, 'rules'), rules, { recursive: true });
  });
  afterAll(() => rm(rules, { recursive: true, force: true }));

  it.each([
    [['check', ...jobs, ...asOf, '--format', 'json']],
    [['next', job, ...asOf, '--all']],
    [['packs', 'show', 'position-signals']],
    [['packs', 'show', 'corner-suspects']],
    [['packs', 'prove', 'handover', 'air-supply']],
  ])('say what their files say: %j', async (call) => {
    expect(await spawnBin(call)).toEqual(await runCli(call));
  });

  it('count in any folder, by their bytes alone', async () => {
    const call = ['packs', 'show', 'handover', '--rules', rules];
    expect(await spawnBin(call)).toEqual(await runCli(['packs', 'show', 'handover']));
  });

  it.each([
    ['a word', 'title: ', 'title: Own ', 'Own '],
    ['a mistake', 'steps:', 'stepps:', 'stepps'],
  ])('do not count where one has %s of its own', async (_, from, to, told) => {
    const newest = (await readdir(join(rules, 'handover'))).sort().at(-1) ?? '';
    const path = join(rules, 'handover', newest);
    const text = await readFile(path, 'utf8');
    await writeFile(path, text.replace(from, to));
    const call = ['packs', 'show', 'handover', '--rules', rules];
    const outcome = await spawnBin(call);
    await writeFile(path, text);
    expect(outcome.stdout + outcome.stderr).toContain(told);
  });
});
