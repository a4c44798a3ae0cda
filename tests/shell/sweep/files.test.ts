import { execFileSync } from 'node:child_process';
import { symlink } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeFolder } from '../../support/folder.ts';
import { jobText, linesOf, pinned } from '../../support/sweep.ts';

const ndjson = ['--format', 'ndjson'];

describe('the files of a sweep', () => {
  it('are all jobs at or below a folder, by name, each once', async () => {
    const folder = await makeFolder({
      'march/b.yaml': jobText({ job: 'B' }),
      'march/deep/a.yml': jobText({ job: 'A' }),
      'c.yaml': jobText({ job: 'C' }),
    });
    const { code, stdout } = await folder.run(['sweep', '.', 'c.yaml', ...ndjson]);
    expect(linesOf({ stdout }).map(({ file }) => file)).toEqual([
      'c.yaml',
      'march/b.yaml',
      'march/deep/a.yml',
    ]);
    expect(code).toBe(0);
  });

  it('pass over packs, other YAML, the shop file, hidden files and folders, and say how many were no jobs', async () => {
    const folder = await makeFolder({
      's4.yaml': jobText(),
      'rules/own/1.0.0.yaml': 'pack: own\nversion: 1.0.0\n',
      'notes.yaml': 'shopping: [tape]\n',
      '.hidden.yaml': jobText(),
      '.git/x.yaml': jobText(),
      'node_modules/x.yaml': jobText(),
      'read-me.txt': 'worksheet: 1\n',
    });
    const { stdout } = await folder.run(['sweep', '.', ...ndjson]);
    expect(linesOf({ stdout }).map(({ file }) => file)).toEqual(['s4.yaml']);
    const whole = JSON.parse((await folder.run(['sweep', '.', '--format', 'json'])).stdout);
    expect(whole.leftOut.notJobs).toBe(2);
  });

  it('are judged where they are named, whatever they look like', async () => {
    const folder = await makeFolder({ 'notes.yaml': 'shopping: [tape]\n' });
    const { code, stdout } = await folder.run(['sweep', 'notes.yaml', ...ndjson]);
    expect(linesOf({ stdout })[0]).toMatchObject({ file: 'notes.yaml', job: null });
    expect(code).toBe(1);
  });

  it('may come as patterns and as a list on standard input, by lines or zero bytes', async () => {
    const folder = await makeFolder({ 'a.yaml': jobText(), 'b c.yaml': jobText(), 'd.yaml': jobText() });
    const names = async (argv: readonly string[], stdin = ''): Promise<string[]> =>
      linesOf(await folder.run(['sweep', ...argv, ...ndjson], { stdin })).map(({ file }) => file);
    expect(await names(['[ab]*.yaml'])).toEqual(['a.yaml', 'b c.yaml']);
    expect(await names(['-'], 'd.yaml\r\nb c.yaml\n\n')).toEqual(['b c.yaml', 'd.yaml']);
    expect(await names(['-'], 'd.yaml\0b c.yaml\0')).toEqual(['b c.yaml', 'd.yaml']);
    expect(await names(['-', 'a.yaml'], '.')).toEqual(['a.yaml', 'b c.yaml', 'd.yaml']);
  });

  it('leave closed jobs out unless they are asked for', async () => {
    const folder = await makeFolder({
      'open.yaml': jobText(),
      'shut.yaml': jobText({ status: 'closed' }),
      'wait.yaml': jobText({ status: 'waiting' }),
    });
    const names = async (...argv: string[]): Promise<string[]> =>
      linesOf(await folder.run(['sweep', '.', ...argv, ...ndjson])).map(({ file }) => file);
    expect(await names()).toEqual(['open.yaml', 'wait.yaml']);
    // In this order what was left out is kept as left out, and asked for after all.
    expect(await names('--state', 'closed')).toEqual(['shut.yaml']);
    expect(await names('--state', 'open,closed')).toEqual(['open.yaml', 'shut.yaml']);
    expect(await names('--state', 'waiting', '--state', 'open')).toEqual(['open.yaml', 'wait.yaml']);
    expect(await names()).toEqual(['open.yaml', 'wait.yaml']);
  });

  it('that cannot be judged are rows of their own, and the others are judged', async () => {
    const folder = await makeFolder({
      'good.yaml': jobText(),
      'broken.yaml': 'worksheet: 1\njob: [\n',
      'utf16.yaml': new Uint8Array([0xff, 0xfe, 0x77, 0]),
      'huge.yaml': new Uint8Array(3 * 1024 * 1024).fill(0x20),
      'bomb.yaml': `worksheet: 1\na: &a [x,x,x,x,x,x,x,x,x]\n${Array.from({ length: 9 }, (_, n) => `b${n}: &b${n} [${'*a,'.repeat(9)}*a]`).join('\n')}\n`,
      'empty.yaml': '',
    });
    await symlink('nowhere.yaml', join(folder.path, 'dangling.yaml'));
    const { code, stdout } = await folder.run(['sweep', '.', 'broken.yaml', '-', ...ndjson], {
      stdin: 'missing.yaml\n',
    });
    const byFile = Object.fromEntries(linesOf({ stdout }).map((row) => [row.file, row]));
    expect(Object.keys(byFile)).toEqual([
      'bomb.yaml',
      'broken.yaml',
      'dangling.yaml',
      'empty.yaml',
      'good.yaml',
      'huge.yaml',
      'missing.yaml',
      'utf16.yaml',
    ]);
    expect(byFile['good.yaml']?.job).toBe('S04-1');
    const codes = Object.values(byFile).map((row) => row.problems?.[0]?.code ?? 'judged');
    expect(new Set(codes.filter((one) => one !== 'judged')).size).toBeGreaterThan(4);
    for (const row of Object.values(byFile)) {
      if (row.file !== 'good.yaml') expect(row).toMatchObject({ job: null, now: { kind: 'correct' } });
    }
    expect(code).toBe(1);
  });

  it('that are no plain files are told and not waited for', async () => {
    const folder = await makeFolder({ 'good.yaml': jobText() });
    execFileSync('mkfifo', [join(folder.path, 'pipe.yaml')]);
    const { code, stdout } = await folder.run(['sweep', '.', 'pipe.yaml', ...ndjson]);
    const pipe = linesOf({ stdout }).find(({ file }) => file === 'pipe.yaml');
    expect(pipe?.problems?.[0]?.message).toBe('this is a pipe, not a file');
    expect(code).toBe(1);
  });

  it('do not lead in a circle', async () => {
    const folder = await makeFolder({ 'deep/good.yaml': jobText() });
    await symlink('..', join(folder.path, 'deep/up'));
    const { stdout } = await folder.run(['sweep', '.', ...ndjson]);
    expect(linesOf({ stdout }).map(({ file }) => file)).toEqual(['deep/good.yaml']);
  });

  it('are wanted: none at all is a mistake', async () => {
    const folder = await makeFolder();
    const { code, stderr } = await folder.run(['sweep', '.']);
    expect(stderr).toContain('there is no YAML file in .');
    expect(code).toBe(2);
  });

  it('are judged by the shop file of their own folder', async () => {
    const look =
      'packs: [position-signals@1, supply-charging@1, handover@1]\nfail-on: never\nzone: Europe/Dublin\n';
    const folder = await makeFolder({
      'a.yaml': pinned(),
      'mild/cornerwise.yaml': look,
      'mild/b.yaml': pinned(),
    });
    const rows = linesOf(await folder.run(['sweep', '.', ...ndjson]));
    expect(rows.map(({ fails, problems }) => fails ?? problems)).toEqual([true, false]);
    expect((await folder.run(['sweep', 'mild', ...ndjson])).code).toBe(0);
    expect((await folder.run(['sweep', 'mild', '--fail-on', 'hold', ...ndjson])).code).toBe(1);
  });

  it('can be thinned by what they wait for and by age', async () => {
    const waits = ['log:', '  - {at: 2026-03-02T09:00, did: waiting, what: sensor.LR, for: parts supplier}'];
    const folder = await makeFolder({
      'old.yaml': jobText({ opened: '2026-02-01T07:00' }),
      'new.yaml': jobText(),
      'wait.yaml': jobText({ more: waits }),
    });
    const names = async (...argv: string[]): Promise<string[]> =>
      linesOf(await folder.run(['sweep', '.', ...argv, ...ndjson])).map(({ file }) => file);
    expect(await names('--waiting-for', 'SUPPLIER')).toEqual(['wait.yaml']);
    expect(await names('--waiting-for', 'nobody')).toEqual([]);
    expect(await names('--older-than', '2w')).toEqual(['old.yaml']);
    expect(await names('--older-than', '29')).toEqual([]);
    expect(await names('--older-than', '28d')).toEqual(['old.yaml']);
  });
});
