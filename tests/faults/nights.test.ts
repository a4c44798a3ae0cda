import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeFolder } from '../support/folder.ts';
import { projectRoot } from '../support/run.ts';
import { jobText, linesOf, pinned } from '../support/sweep.ts';

/** What a sweep is worth where something around the jobs is wrong. */
const asOf = (time: string): string[] => ['--as-of', time];
const first = asOf('2026-03-02T18:00');
const second = asOf('2026-03-03T02:30');
const memory = '.cornerwise-sweep.ndjson';

const jobs = { 'a.yaml': jobText(), 'b.yaml': jobText({ job: 'B' }), 'c.yaml': jobText({ job: 'C' }) };

describe('what is wrong for all jobs', () => {
  it.each([
    ['an unknown key', 'zone: UTC\nzoen: UTC\n', 'unknown key "zoen"'],
    ['a folder of packs that is missing', 'rules: [own]\n', 'there is no rule folder own'],
    ['a pack that nobody knows', 'packs: [position-signal@1]\n', 'no pack is called'],
    ['broken YAML', 'packs: [\n', 'a bracket is not closed'],
  ])('%s in the shop file is one error, and no night', async (_, shop, says) => {
    const folder = await makeFolder(jobs);
    await folder.run(['sweep', '.', '--remember', ...first]);
    const before = await folder.read(memory);
    await folder.write('cornerwise.yaml', shop);
    const { code, stdout, stderr } = await folder.run(['sweep', '.', '--remember', ...second]);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr.split(says)).toHaveLength(2);
    expect(stderr).toContain('No job was judged.');
    expect(await folder.read(memory)).toBe(before);
  });

  it('an argument that leads to nothing is an error of the call', async () => {
    const folder = await makeFolder(jobs);
    const { code, stdout, stderr } = await folder.run(['sweep', '.', 'jbos', '--remember', ...first]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('there is no file or folder jbos');
    expect(await folder.names()).not.toContain(memory);
  });
});

describe('a file that cannot be judged', () => {
  it('is a row of its own, counts as something that is out, and with --strict as more', async () => {
    const folder = await makeFolder({ ...jobs, 'broken.yaml': 'vehicle: [\n' });
    const night = ['sweep', '.', '--fail-on', 'never', '--format', 'ndjson', ...first];
    const { code, stdout } = await folder.run(night);
    expect(code).toBe(1);
    expect(linesOf({ stdout }).map(({ job }) => job)).toEqual(['S04-1', 'B', null, 'C']);
    expect((await folder.run([...night, '--strict'])).code).toBe(2);
  });

  it('keeps its last good row beside the error, night after night', async () => {
    const folder = await makeFolder({ ...jobs, 'b.yaml': pinned({ job: 'B' }) });
    const night = ['sweep', '.', '--remember', '--format', 'ndjson'];
    const row = linesOf(await folder.run([...night, ...first]))[1];
    const { format, ...good }: Record<string, unknown> = { ...row };
    expect(format).toBe(1);
    await folder.write('b.yaml', 'vehicle: [\n');
    for (const time of ['2026-03-03T02:30', '2026-03-04T02:30']) {
      const bad = linesOf(await folder.run([...night, ...asOf(time)]))[1];
      expect(bad).toMatchObject({ file: 'b.yaml', job: null, last: { ...good, change: null } });
    }
    const { stdout } = await folder.run(['sweep', '.', '--remember', ...asOf('2026-03-05T02:30')]);
    expect(stdout.replace(/\s+/gu, ' ')).toContain('last judged 2026-03-02: Shuttle 4, hold, Sits low');
  });

  it('is not the shop file among the files of a pattern', async () => {
    const folder = await makeFolder(jobs);
    const names = ['a.yaml', 'b.yaml', 'cornerwise.yaml'];
    const rows = linesOf(await folder.run(['sweep', ...names, '--format', 'ndjson', ...first]));
    expect(rows.map(({ file }) => file)).toEqual(['a.yaml', 'b.yaml']);
  });
});

describe('a pack that is not what its name says', () => {
  const shop = 'packs: [position-signals@1, supply-charging@1]\nrules: [rules]\nzone: Europe/Dublin\n';
  const own = 'rules/position-signals/1.1.0.yaml';
  const shipped = (): Promise<string> => readFile(join(projectRoot, own), 'utf8');

  it('is said in the sheet and the sweep where it stands in for a published one', async () => {
    const text = (await shipped()).replace(/between: \[0\.25 V/u, 'between: [0.05 V');
    const folder = await makeFolder({ 'a.yaml': pinned(), 'cornerwise.yaml': shop, [own]: text });
    expect(text).not.toBe(await shipped());
    const sheet = await folder.run(['check', 'a.yaml', ...first]);
    expect(sheet.stdout).toContain('PACK REPLACED: position-signals 1.1.0 is not the published one');
    const table = await folder.run(['sweep', '.', ...first]);
    expect(table.stdout).toContain('PACK REPLACED position-signals 1.1.0 is not the published one: 1 job');
    const [row] = linesOf(await folder.run(['sweep', '.', '--format', 'ndjson', ...first]));
    expect(row?.packs.map(({ id, replaced }) => [id, replaced])).toEqual([
      ['position-signals', true],
      ['supply-charging', false],
    ]);
  });

  it('is said where it changed since the last night', async () => {
    const folder = await makeFolder({ 'a.yaml': pinned(), 'cornerwise.yaml': shop, [own]: await shipped() });
    await folder.run(['sweep', '.', '--remember', ...first]);
    await folder.write(own, (await shipped()).replace('title: ', 'title: Own '));
    const { stdout } = await folder.run(['sweep', '.', '--remember', ...second]);
    const words = stdout.replace(/\s+/gu, ' ');
    expect(words).toContain(
      'PACK CHANGED position-signals 1.1.0 differs from the earlier night under the same version: 1 job',
    );
    expect(words).toContain('pack position-signals changed under its version 1.1.0');
  });
});
