import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type ProblemCode, problemCodes } from '../../src/core/flaw.ts';
import { type Outcome, runCli } from '../support/run.ts';
import { built } from './built.ts';

/**
 * For every problem code the smallest input that gives it, and beside it what the program prints about it:
 * `CODE.yaml` is a job file, `CODE/` a folder with a job and rule packs of its own, `built.ts` makes what cannot be
 * kept as text, and `CODE.txt` holds the exact error output. `CODE.SLIP` is one more slip that gives the same code.
 */
const here = import.meta.dirname;

const reproduce = (name: string, options: readonly string[] = []): Promise<Outcome> => {
  const made = built[name as ProblemCode];
  if (made) return runCli(['check', made.argument, ...options], { files: made.files });
  if (existsSync(join(here, name))) {
    return runCli(['check', 'job.yaml', '--rules', 'rules', ...options], { cwd: join(here, name) });
  }
  return runCli(['check', `${name}.yaml`, ...options], { cwd: here });
};

const codeOf = (name: string): string => name.split('.')[0] ?? '';

const names = [
  ...readdirSync(here)
    .filter((file) => !/\.(?:txt|ts)$/u.test(file))
    .map((file) => file.replace(/\.yaml$/u, '')),
  ...Object.keys(built),
].sort();

interface Unjudged {
  readonly problems: readonly { readonly code: string; readonly hint: string | null }[];
}

describe('reproducers', () => {
  it('exist for every problem code and for nothing else', () => {
    expect(names.filter((name) => !name.includes('.'))).toEqual([...problemCodes].sort());
    expect(names.map(codeOf).filter((code) => !(problemCodes as readonly string[]).includes(code))).toEqual(
      [],
    );
    const texts = readdirSync(here).filter((file) => file.endsWith('.txt'));
    expect(texts.map((file) => file.replace(/\.txt$/u, '')).sort()).toEqual(names);
  });

  it.each(names)('%s is told as its text says', async (name) => {
    const { code: exit, stdout, stderr } = await reproduce(name);
    expect(exit).toBe(2);
    expect(stdout).toBe('');
    await expect(stderr).toMatchFileSnapshot(join(here, `${name}.txt`));
  });

  it.each(names)('%s is all that its input gives, and it says what to do', async (name) => {
    const { stdout } = await reproduce(name, ['--format', 'ndjson']);
    const { problems } = JSON.parse(stdout) as Unjudged;
    expect(new Set(problems.map((problem) => problem.code))).toEqual(new Set([codeOf(name)]));
    expect(problems.every(({ hint }) => hint !== null && hint !== '')).toBe(true);
  });
});
