import { execFile } from 'node:child_process';
import { mkdir, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { bundle, openFolder } from './bundled.ts';
import { beside, call, job, textOf } from './job-file.ts';

/** What each of the two adds. */
const adds = 100;

/** Calls the program many times in one process; every call must do its part. */
const writer = `
import { realIo, run } from './src/shell/main.ts';
const [name, count] = process.argv.slice(2);
const io = realIo();
for (let number = 0; number < Number(count); number += 1) {
  const words = ['add', 'job.yaml', 'rest', 'supply=12.2', '--note', name + number, '--quiet'];
  const code = await run(words, io);
  if (code !== 0) throw new Error('add ' + number + ' ended with ' + code);
}`;

let folder = '';
let start = '';

beforeAll(async () => {
  folder = await openFolder();
  start = await bundle(folder, writer);
});

afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

const write = (file: string, name: string): Promise<string> =>
  new Promise((resolve, reject) => {
    const options = { cwd: dirname(file), env: { XDG_STATE_HOME: join(dirname(file), 'state') } };
    execFile(process.execPath, [start, name, String(adds)], options, (error, _, stderr) =>
      error ? reject(error) : resolve(stderr),
    );
  });

interface Snapshot {
  readonly id: string;
  readonly note?: string;
}

describe('two writers at once', () => {
  it('lose nothing of each other, and leave a job that can be read', async () => {
    const file = join(folder, 'jobs', 'job.yaml');
    await mkdir(dirname(file));
    await writeFile(file, job);
    const said = await Promise.all([write(file, 'a'), write(file, 'b')]);
    // On a busy machine one may wait long enough to say so.
    expect(said.join('').replace(/^cornerwise: .*; waiting\n/gmu, '')).toBe('');
    const after = await textOf(file);
    const { snapshots } = parse(after) as { snapshots: Snapshot[] };
    const [first, ...added] = snapshots;
    expect(first?.id).toBe('as-found');
    // The names count up in the order in which the adds came to pass: none was given twice, none is missing.
    expect(added.map(({ id }) => id)).toEqual(
      Array.from({ length: 2 * adds }, (_, index) => (index === 0 ? 'rest' : `rest-${index + 1}`)),
    );
    const notes = added.map(({ note }) => note ?? '');
    for (const name of ['a', 'b']) {
      const own = notes.filter((note) => note.startsWith(name));
      expect(own).toEqual(Array.from({ length: adds }, (_, index) => `${name}${index}`));
    }
    // They did write at once, and not one after the other.
    expect(notes.lastIndexOf('a99')).not.toBe(adds - 1);
    expect(notes.lastIndexOf('b99')).not.toBe(adds - 1);
    expect(await beside(file)).toEqual(['job.yaml']);
    const { stderr } = await call(file, 'check', 'job.yaml', '--fail-on', 'never');
    expect(stderr).toBe('');
    // What was there before stands there as it did, up to the end of the list that was added to.
    const [head = '', tail = ''] = job.split('log: []');
    expect(after.startsWith(head)).toBe(true);
    expect(after.endsWith(`log: []${tail}`)).toBe(true);
  }, 300_000);
});
