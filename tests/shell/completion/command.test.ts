import { execFileSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { scripts, shells } from '../../../src/shell/completion/scripts.ts';
import { runCli, type Surroundings } from '../../support/run.ts';

const complete = (words: readonly string[], surroundings: Surroundings = {}) =>
  runCli(['complete', 'zsh', '--', 'cornerwise', ...words], surroundings);

const values = async (words: readonly string[], surroundings: Surroundings = {}): Promise<string[]> => {
  const { code, stdout, stderr } = await complete(words, surroundings);
  expect([code, stderr]).toEqual([0, '']);
  return stdout
    .split('\n')
    .slice(0, -1)
    .map((line) => line.split('\t')[0] ?? '');
};

const job = (packs: string): string => `worksheet: 1\n${packs}nonsense: [\n`;

describe('cornerwise completion', () => {
  it.each(shells)('%s prints its script', async (shell) => {
    expect(await runCli(['completion', shell])).toEqual({ code: 0, stdout: scripts[shell], stderr: '' });
  });

  it('is in the help, with where each script goes, and the command that the scripts call is not', async () => {
    const { stdout } = await runCli(['--help']);
    expect(stdout).toMatch(/^ {2}completion /mu);
    expect(stdout).not.toMatch(/^ {2}complete /mu);
    const help = (await runCli(['completion', '--help'])).stdout;
    for (const shell of shells) expect(help).toMatch(new RegExp(`^ {2}${shell} `, 'mu'));
  });

  it('refuses other shells', async () => {
    expect((await runCli(['completion', 'tcl'])).code).toBe(2);
  });
});

describe('the hidden command', () => {
  it('knows every command of the program, and no hidden one', async () => {
    const { stdout } = await runCli(['--help']);
    const listed = [...stdout.matchAll(/^ {2}([a-z]+)(?: [[<].*)? {2,}/gmu)].map(([, name]) => name);
    expect(listed).toContain('check');
    expect(await values([''])).toEqual(listed);
  });

  it('knows the options of every command', async () => {
    expect(await values(['check', '--fo'])).toEqual(['--format']);
    expect(await values(['check', '--fail-on', ''])).toEqual(['hold', 'look', 'never']);
    expect(await values(['schema', ''])).toEqual(['job', 'pack', 'shop', 'output', 'sweep']);
    expect(await values(['packs', 'show', 'position'])).toEqual(['position-signals']);
  });

  it('takes words that look like its own options', async () => {
    expect(await values(['check', '--help', '--', '-V', '--nons'])).toEqual([':files']);
  });

  it('reads the packs that the job names', async () => {
    const files = { 'air.yaml': 'worksheet: 1\npacks: [air-supply@1]\n' };
    expect(await values(['add', 'air.yaml', 'rest', 't'], { files })).toEqual(['tank=']);
    expect(await values(['add', 'air.yaml', 'rest', 'L'], { files })).toEqual([]);
  });

  it('reads the packs that the shop file names, and in the folders that it names', async () => {
    const files = {
      'cornerwise.yaml': 'packs: [air-supply@1]\n',
      'jobs/s7.yaml': 'worksheet: 1\njob: S7\n',
    };
    expect(await values(['add', 'jobs/s7.yaml', 'rest', 'L'], { files })).toEqual([]);
    expect(await values(['add', '~/s7.yaml', 'rest', 'L'], { files, env: { HOME: 'jobs' } })).toEqual([]);
  });

  it.each([
    ['no file', {}],
    ['a broken one', { 's7.yaml': job('packs: [air-supply@1]\n') }],
    ['one with a mistake in its packs', { 's7.yaml': 'worksheet: 1\npacks: [nonsense@1]\n' }],
    ['no text', { 's7.yaml': new Uint8Array([0xff, 0xfe]) }],
    ['a broken shop file', { 's7.yaml': 'worksheet: 1\n', 'cornerwise.yaml': 'packs: [' }],
    ['a folder', { 's7.yaml/x': '' }],
  ])('takes the newest of every pack where there is %s', async (_, files) => {
    expect(await values(['add', 's7.yaml', 'rest', 'LF'], { files })).toEqual(['LF=']);
  });

  it('never reads standard input for names', async () => {
    const stdin = 'worksheet: 1\npacks: [air-supply@1]\n';
    expect(await values(['add', '-', 'rest', 'LF'], { files: {}, stdin })).toEqual(['LF=']);
  });

  it('says nothing where there is nothing to say', async () => {
    expect(await complete(['nonsense', 'x'])).toEqual({ code: 0, stdout: '', stderr: '' });
    expect(await runCli(['complete', 'bash'])).toMatchObject({ code: 0, stderr: '' });
  });

  it('serves bash by the line, and PowerShell by words with a sign before each', async () => {
    const bash = await runCli(['complete', 'bash', '--', 'cornerwise check --format=n', '=']);
    expect(bash.stdout).toBe('words\nndjson\n');
    const files = { 'my job.yaml': '' };
    const power = (...words: string[]) => runCli(['complete', 'powershell', ...words], { files });
    expect((await power('=cornerwise', '=check', '=--format', '=')).stdout).toBe(
      'table\ttable\ttable\njson\tjson\tjson\nndjson\tndjson\tndjson\ncsv\tcsv\tcsv\nmarkdown\tmarkdown\tmarkdown\n',
    );
    expect((await power('=cornerwise', '=check', '=my')).stdout).toBe(
      "'my job.yaml'\tmy job.yaml\tmy job.yaml\n",
    );
  });
});

describe('the scripts', () => {
  it('bash finds no fault in its own', () => {
    const check = (script: string) => execFileSync('bash', ['-n'], { input: script, encoding: 'utf8' });
    expect(check(scripts.bash)).toBe('');
  });

  it("PowerShell's closes what it opens", () => {
    const pairs: Readonly<Record<string, string>> = { ')': '(', ']': '[', '}': '{' };
    const open: string[] = [];
    const bare = scripts.powershell.replace(/#.*$/gmu, '').replace(/'[^']*'|"[^"]*"/gu, '');
    expect(bare).not.toMatch(/['"]/u);
    for (const sign of bare.match(/[()[\]{}]/gu) ?? []) {
      if (sign in pairs) expect(open.pop()).toBe(pairs[sign]);
      else open.push(sign);
    }
    expect(open).toEqual([]);
    expect(scripts.powershell).toContain('Register-ArgumentCompleter -Native -CommandName cornerwise');
    expect(scripts.powershell).toContain('-split "`t", 3');
  });

  it('are no more than a page', () => {
    for (const shell of shells) expect(scripts[shell].split('\n').length).toBeLessThan(40);
  });
});
