import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectRoot, runCli } from '../support/run.ts';

/** The real program in a process of its own. */
const bin = join(projectRoot, 'bin/cornerwise.js');

const spawnBin = (
  args: readonly string[],
  stdin = '',
): Promise<{ code: number; stdout: string; stderr: string }> =>
  new Promise((resolve) => {
    const child = execFile(
      process.execPath,
      [bin, ...args],
      { cwd: projectRoot },
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
