import { existsSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type ProblemCode, problemCodes } from '../../src/core/flaw.ts';
import { type Outcome, runCli } from '../support/run.ts';
import { built } from './built.ts';

/**
 * For every problem code the smallest input that gives it, and beside it what the program prints about it:
 * `CODE.yaml` is a job file, `CODE/` a folder with a job and rule packs of its own, `built.ts` makes what cannot be
 * kept as text, and `CODE.txt` holds the exact error output.
 */
const here = import.meta.dirname;

const reproduce = (code: ProblemCode, options: readonly string[] = []): Promise<Outcome> => {
  const made = built[code];
  if (made) return runCli(['check', made.argument, ...options], { files: made.files });
  if (existsSync(join(here, code))) {
    return runCli(['check', 'job.yaml', '--rules', 'rules', ...options], { cwd: join(here, code) });
  }
  return runCli(['check', `${code}.yaml`, ...options], { cwd: here });
};

interface Unjudged {
  readonly problems: readonly { readonly code: string; readonly hint: string | null }[];
}

describe('reproducers', () => {
  it('exist for every problem code and for nothing else', async () => {
    const files = await readdir(here);
    const inputs = files
      .filter((file) => !/\.(?:txt|ts)$/u.test(file))
      .map((file) => file.replace(/\.yaml$/u, ''));
    expect([...inputs, ...Object.keys(built)].sort()).toEqual([...problemCodes].sort());
    const texts = files.filter((file) => file.endsWith('.txt')).map((file) => file.replace(/\.txt$/u, ''));
    expect(texts.sort()).toEqual([...problemCodes].sort());
  });

  it.each(problemCodes)('%s is told as its text says', async (code) => {
    const { code: exit, stdout, stderr } = await reproduce(code);
    expect(exit).toBe(2);
    expect(stdout).toBe('');
    await expect(stderr).toMatchFileSnapshot(join(here, `${code}.txt`));
  });

  it.each(problemCodes)('%s is all that its input gives, and it says what to do', async (code) => {
    const { stdout } = await reproduce(code, ['--format', 'ndjson']);
    const { problems } = JSON.parse(stdout) as Unjudged;
    expect(new Set(problems.map((problem) => problem.code))).toEqual(new Set([code]));
    expect(problems.every(({ hint }) => hint !== null && hint !== '')).toBe(true);
  });
});
