import { mkdir, readdir, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { changesMade, keepChanges, type Made, withChange } from '../../../src/shell/save/undo-store.ts';
import { freshFolder, ioBeside } from './job-file.ts';

const made = (before: string, after: string, what = `${before} to ${after}`): Made => ({
  what,
  at: '2026-03-02T12:00:00.000Z',
  before,
  after,
  stretches: [{ at: 3, length: 4 }],
});

const file = '/jobs/s7.yaml';

const store = async () => {
  const folder = await freshFolder();
  return { folder, io: ioBeside(file, { XDG_STATE_HOME: folder }) };
};

/** The only record in a state folder. */
const record = async (folder: string): Promise<string> => {
  const [name = '', ...more] = await readdir(join(folder, 'cornerwise', 'undo'));
  expect(more).toEqual([]);
  return join(folder, 'cornerwise', 'undo', name);
};

describe('the record of changes', () => {
  it('gives back what was put into it, for each file', async () => {
    const { io } = await store();
    expect(await changesMade(file, io)).toEqual([]);
    expect(await keepChanges(file, [made('a', 'b'), made('b', 'c')], io)).toBe(true);
    expect(await changesMade(file, io)).toEqual([made('a', 'b'), made('b', 'c')]);
    expect(await changesMade('/jobs/s8.yaml', io)).toEqual([]);
  });

  it('can be read by its user alone', async () => {
    const { folder, io } = await store();
    await keepChanges(file, [made('a', 'b')], io);
    const path = await record(folder);
    expect((await stat(path)).mode & 0o777).toBe(0o600);
    expect((await stat(join(folder, 'cornerwise', 'undo'))).mode & 0o777).toBe(0o700);
  });

  it('is gone once it is empty', async () => {
    const { folder, io } = await store();
    await keepChanges(file, [made('a', 'b')], io);
    expect(await keepChanges(file, [], io)).toBe(true);
    expect(await readdir(join(folder, 'cornerwise', 'undo'))).toEqual([]);
    expect(await keepChanges(file, [], io)).toBe(true);
  });

  it('keeps the newest two hundred', async () => {
    const { io } = await store();
    const all = Array.from({ length: 201 }, (_, index) => made(`${index}`, `${index + 1}`));
    await keepChanges(file, all, io);
    expect(await changesMade(file, io)).toEqual(all.slice(1));
  });

  it.each([
    ['is no JSON', '[{'],
    ['is no list', '{}'],
    ['is nothing', 'null'],
    ['holds nothing', '[null]'],
    ['holds other things', '[1, {"what": "x"}, []]'],
    ['has stretches that are none', JSON.stringify([{ ...made('a', 'b'), stretches: [null] }])],
    ['has stretches without a place', JSON.stringify([{ ...made('a', 'b'), stretches: [{ length: 1.5 }] }])],
    ['is not text', Uint8Array.of(0xff, 0x00)],
  ])('that %s counts as none', async (_, content) => {
    const { folder, io } = await store();
    await keepChanges(file, [made('a', 'b')], io);
    await writeFile(await record(folder), content);
    expect(await changesMade(file, io)).toEqual([]);
  });

  it.each([
    [{ XDG_STATE_HOME: 'X', HOME: 'H' }, ['X', 'cornerwise', 'undo']],
    [{ LOCALAPPDATA: 'L', HOME: 'H' }, ['L', 'cornerwise', 'undo']],
    [{ HOME: 'H', USERPROFILE: 'U' }, ['H', '.local', 'state', 'cornerwise', 'undo']],
    [{ USERPROFILE: 'U' }, ['U', '.local', 'state', 'cornerwise', 'undo']],
  ])('lies where %j says', async (env, place) => {
    const folder = await freshFolder();
    const full = Object.fromEntries(Object.entries(env).map(([name, value]) => [name, join(folder, value)]));
    expect(await keepChanges(file, [made('a', 'b')], ioBeside(file, full))).toBe(true);
    expect(await readdir(join(folder, ...place))).toHaveLength(1);
  });

  it('is done without where there is no place for it', async () => {
    const io = ioBeside(file, {});
    expect(await keepChanges(file, [made('a', 'b')], io)).toBe(false);
    expect(await changesMade(file, io)).toEqual([]);
  });

  it('is done without where it cannot be written', async () => {
    const { folder, io } = await store();
    await writeFile(join(folder, 'cornerwise'), 'a file in the way');
    expect(await keepChanges(file, [made('a', 'b')], io)).toBe(false);
    expect(await changesMade(file, io)).toEqual([]);
  });

  it('leaves nothing half-written', async () => {
    const { folder, io } = await store();
    await keepChanges(file, [made('a', 'b')], io);
    const path = await record(folder);
    await mkdir(join(folder, 'elsewhere'));
    await keepChanges(file, [made('a', 'b'), made('b', 'c')], io);
    expect(await record(folder)).toBe(path);
  });
});

describe('a chain of changes', () => {
  it('goes on where one leads to the next', () => {
    expect(withChange([], made('a', 'b'))).toEqual([made('a', 'b')]);
    expect(withChange([made('a', 'b')], made('b', 'c'))).toEqual([made('a', 'b'), made('b', 'c')]);
  });

  it('begins anew where somebody else changed the file in between', () => {
    expect(withChange([made('a', 'b'), made('b', 'c')], made('x', 'y'))).toEqual([made('x', 'y')]);
  });
});
