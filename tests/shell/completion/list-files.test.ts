import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { listFiles } from '../../../src/shell/completion/list-files.ts';

let cwd = '';
const list = (typed: string): Promise<string[] | null> =>
  listFiles(typed, { cwd, env: { HOME: join(cwd, 'home') } });

beforeAll(async () => {
  cwd = await mkdtemp(join(tmpdir(), 'list-'));
  for (const folder of ['jobs', 'home', 'empty', 'many']) await mkdir(join(cwd, folder));
  const files = [
    'b.yaml',
    'a.yml',
    'notes.txt',
    '.hidden.yaml',
    'home/h.yaml',
    'jobs/x.yaml',
    'jobs/x\u001by.yaml',
  ];
  for (const file of files) await writeFile(join(cwd, file), '');
  await symlink(join(cwd, 'jobs'), join(cwd, 'link'));
  for (let file = 0; file <= 5000; file += 1) await writeFile(join(cwd, 'many', `${file}.yaml`), '');
});
afterAll(() => rm(cwd, { recursive: true, force: true }));

describe('files as completion lists them', () => {
  it.each([
    ['', ['a.yml', 'b.yaml', 'empty', 'home', 'jobs', 'link', 'many']],
    ['.', ['.hidden.yaml']],
    ['b', ['b.yaml']],
    ['jobs/', ['jobs/x.yaml']],
    ['link/x', ['link/x.yaml']],
    ['~/', ['~/h.yaml']],
  ])('%j', async (typed, values) => {
    expect(await list(typed)).toEqual(values);
  });

  it.each(['n', 'jo', 'empty/', 'nowhere/', 'notes.txt/', 'many/'])(
    '%j is left to the shell',
    async (typed) => {
      expect(await list(typed)).toBeNull();
    },
  );
});
