import { mkdir, readdir, readFile, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { digest } from '../../../src/shell/disk/digest.ts';
import type { Io } from '../../../src/shell/io.ts';
import { begun, grown, type History, unrolled } from '../../../src/shell/save/history.ts';
import { keepHistory, readHistory } from '../../../src/shell/save/undo-store.ts';
import { freshFolder, ioBeside } from './job-file.ts';

const at = '2026-03-02T12:00:00.000Z';
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const history = grown(begun(bytes('before\n'), at), Uint8Array.of(0xff, 0x00, 0x0a), {
  ...{ at, by: 'log', what: 'noted', as: null },
});
const file = '/jobs/s7.yaml';

const store = async () => {
  const folder = await freshFolder();
  const said: string[] = [];
  const io: Io = {
    ...ioBeside(file, { XDG_STATE_HOME: folder }),
    stderr: { write: (text) => said.push(text) },
  };
  return { folder, io, said };
};

const names = (folder: string): Promise<string[]> => readdir(join(folder, 'cornerwise', 'undo'));

/** The only record in a state folder. */
const record = async (folder: string): Promise<string> => {
  const [name = '', ...more] = await names(folder);
  expect(more).toEqual([]);
  return join(folder, 'cornerwise', 'undo', name);
};

const versionsOf = (found: History | null) =>
  found && [...unrolled(found)].map((one) => [one.version.what, Buffer.from(one.bytes).toString('latin1')]);

describe('the record of changes', () => {
  it('gives back what was put into it, for each file', async () => {
    const { io } = await store();
    expect(readHistory(file, io)).toBeNull();
    expect(keepHistory(file, history, io)).toBe(true);
    expect(versionsOf(readHistory(file, io))).toEqual([
      ['noted', '\u00ff\u0000\n'],
      ['', 'before\n'],
    ]);
    expect(readHistory('/jobs/s8.yaml', io)).toBeNull();
  });

  it('can be read by its user alone', async () => {
    const { folder, io } = await store();
    keepHistory(file, history, io);
    const path = await record(folder);
    expect((await stat(path)).mode & 0o777).toBe(0o600);
    expect((await stat(join(folder, 'cornerwise', 'undo'))).mode & 0o777).toBe(0o700);
  });

  const sealed = (body: string): string => `${digest(bytes(body))}\n${body}\n`;

  it.each([
    ['is no JSON', () => '[{'],
    ['has no hash', (was: string) => was.split('\n')[1] ?? ''],
    ['has another hash', (was: string) => was.replace(/^./u, (one) => (one === '0' ? '1' : '0'))],
    ['has another text', (was: string) => was.replace('noted', 'nosed')],
    ['goes on', (was: string) => `${was}more`],
    ['is empty', () => ''],
    ['is of another program', () => sealed('{"format":2}')],
    ['is of another file', (was: string) => sealed((was.split('\n')[1] ?? '').replace('s7', 's8'))],
    ['is not text', () => Uint8Array.of(0xff, 0x00)],
  ])('that %s is moved aside, which is said, and a new one is begun', async (_, spoil) => {
    const { folder, io, said } = await store();
    keepHistory(file, history, io);
    const path = await record(folder);
    const spoilt = spoil(await readFile(path, 'utf8'));
    await writeFile(path, spoilt);
    expect(readHistory(file, io)).toBeNull();
    const aside = path.replace('.json', '.damaged.json');
    expect(said.join('')).toBe(
      `cornerwise: the record of changes to s7.yaml is damaged and not used; it was moved aside to ${aside}\n`,
    );
    expect(await readFile(aside)).toEqual(Buffer.from(spoilt));
    expect(keepHistory(file, history, io)).toBe(true);
    expect(versionsOf(readHistory(file, io))).toHaveLength(2);
    expect(said).toHaveLength(1);
  });

  it('that is a folder is moved aside, too', async () => {
    const { folder, io, said } = await store();
    keepHistory(file, history, io);
    const path = await record(folder);
    await rm(path);
    await mkdir(path);
    expect(readHistory(file, io)).toBeNull();
    expect(said).toHaveLength(1);
    expect(keepHistory(file, history, io)).toBe(true);
  });

  it('is cleared away half a year after the last change', async () => {
    const { folder, io } = await store();
    keepHistory(file, history, io);
    const path = await record(folder);
    const start = (path.split('/').at(-1) ?? '').slice(0, 2);
    const inside = join(folder, 'cornerwise', 'undo');
    const days = (count: number): number => (io.now() - count * 86_400_000) / 1000;
    const left: readonly (readonly [string, number])[] = [
      [`${start}00.json`, 181],
      [`${start}01.json`, 179],
      [`x${start}.json`, 181],
    ];
    for (const [name, age] of left) {
      await writeFile(join(inside, name), '');
      await utimes(join(inside, name), days(age), days(age));
    }
    keepHistory(file, history, io);
    expect(await names(folder)).toHaveLength(4);
    await rm(path);
    keepHistory(file, history, io);
    expect((await names(folder)).sort()).toEqual(
      [path.slice(inside.length + 1), `${start}01.json`, `x${start}.json`].sort(),
    );
  });

  it.each([
    [{ XDG_STATE_HOME: 'X', HOME: 'H' }, ['X', 'cornerwise', 'undo']],
    [{ LOCALAPPDATA: 'L', HOME: 'H' }, ['L', 'cornerwise', 'undo']],
    [{ HOME: 'H', USERPROFILE: 'U' }, ['H', '.local', 'state', 'cornerwise', 'undo']],
    [{ USERPROFILE: 'U' }, ['U', '.local', 'state', 'cornerwise', 'undo']],
  ])('lies where %j says', async (env, place) => {
    const folder = await freshFolder();
    const full = Object.fromEntries(Object.entries(env).map(([name, value]) => [name, join(folder, value)]));
    expect(keepHistory(file, history, ioBeside(file, full))).toBe(true);
    expect(await readdir(join(folder, ...place))).toHaveLength(1);
  });

  it('is done without where there is no place for it', () => {
    const io = ioBeside(file, {});
    expect(keepHistory(file, history, io)).toBe(false);
    expect(readHistory(file, io)).toBeNull();
  });

  it('is done without where it cannot be written', async () => {
    const { folder, io } = await store();
    await writeFile(join(folder, 'cornerwise'), 'a file in the way');
    expect(keepHistory(file, history, io)).toBe(false);
    expect(readHistory(file, io)).toBeNull();
  });
});
