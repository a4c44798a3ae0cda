import { type ChildProcess, spawn } from 'node:child_process';
import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { digest } from '../../../src/shell/disk/digest.ts';
import { lockPath, takeLock } from '../../../src/shell/disk/lock.ts';
import { replaceFile } from '../../../src/shell/disk/replace-file.ts';
import { longTests } from '../../support/long-tests.ts';
import { bundle, openFolder } from './bundled.ts';
import { beside, endedPid, plantLock } from './job-file.ts';

/** Each file has as many kills as that, one after the other; the files have theirs at the same time. */
const kills = longTests ? 30 : 8;
const files = 4;

/** The file as its nth writer leaves it: long, and every line tells which it is. */
const version = (number: number): string => `${`version ${number}\n`.repeat(4000)}end ${number}\n`;

/** The number of a whole file; one that is torn or mixed is none. */
const numberOf = (text: string): number => {
  const number = Number(/^version (\d+)\n/u.exec(text)?.[1]);
  if (text !== version(number)) throw new Error(`the file is torn: ${text.length} characters`);
  return number;
};

/** Writes the next version again and again until it is killed. */
const writer = `
import { readFile } from 'node:fs/promises';
import { digest } from './src/shell/disk/digest.ts';
import { takeLock } from './src/shell/disk/lock.ts';
import { replaceFile } from './src/shell/disk/replace-file.ts';
const version = ${version.toString()};
const file = process.argv[2] as string;
for (;;) {
  process.stdout.write('.');
  const lock = await takeLock(file);
  const bytes = await readFile(file);
  const number = Number(/^version (\\d+)\\n/u.exec(bytes.toString())?.[1]);
  await replaceFile(file, digest(bytes), new TextEncoder().encode(version(number + 1)), lock);
  await lock.release();
}`;

/** Numbers from nought to one that are the same each time. */
const randomFrom = (seed: number): (() => number) => {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
};

let folder = '';
let start = '';

beforeAll(async () => {
  folder = await openFolder();
  start = await bundle(folder, writer);
});

afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

/** Starts a writer; resolves once it has written so many times and is about to write again. */
const started = (file: string, times: number): Promise<ChildProcess> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [start, file], { stdio: ['ignore', 'pipe', 'pipe'] });
    let complaint = '';
    child.stderr.on('data', (text: Buffer) => {
      complaint += text.toString();
    });
    child.on('exit', (code, signal) => {
      if (signal !== 'SIGKILL') reject(new Error(`the writer ended with ${code}: ${complaint}`));
    });
    let written = -1;
    child.stdout.on('data', (dots: Buffer) => {
      written += dots.length;
      if (written >= times) resolve(child);
    });
  });

const killed = (child: ChildProcess): Promise<void> =>
  new Promise((resolve) => {
    child.once('exit', () => resolve());
    child.kill('SIGKILL');
  });

/** One write by this process, which comes after a dead one. */
const writeOnce = async (file: string): Promise<void> => {
  const lock = await takeLock(file);
  const bytes = await readFile(file);
  const next = new TextEncoder().encode(version(numberOf(bytes.toString()) + 1));
  expect(await replaceFile(file, digest(bytes), next, lock)).toBeNull();
  await lock.release();
};

interface Killed {
  readonly file: string;
  /** How many of the killed left a lock, and how many a half-written file. */
  readonly locks: number;
  readonly parts: number;
  readonly writes: number;
}

/** Kills writers of one file, one after the other. */
const killMany = async (index: number): Promise<Killed> => {
  const inside = join(folder, `jobs-${index}`);
  const file = join(inside, 'job.yaml');
  await mkdir(inside);
  await writeFile(file, version(0));
  const random = randomFrom(index + 1);
  let last = 0;
  let locks = 0;
  let parts = 0;
  for (let count = 0; count < kills; count += 1) {
    const times = Math.floor(random() * 6);
    const child = await started(file, times);
    await pause(random() * 8);
    await killed(child);
    const number = numberOf(await readFile(file, 'utf8'));
    expect(number).toBeGreaterThanOrEqual(last + times);
    last = number;
    const left = await beside(file);
    if (left.includes('.job.yaml.lock')) locks += 1;
    if (left.some((name) => name.endsWith('.part'))) parts += 1;
    // Every other time the next writer is one that is killed as well, perhaps while it clears up.
    if (random() < 0.5) continue;
    await writeOnce(file);
    last = number + 1;
    const rest = (await beside(file)).filter(
      (name) => !/^\.job\.yaml\.lock\.\d+\.[0-9a-f-]{36}$/u.test(name),
    );
    expect(rest).toEqual(['job.yaml']);
  }
  return { file, locks, parts, writes: last };
};

describe('a writer that is killed', () => {
  it('leaves the old file or the new one, whole, and the next goes on', async () => {
    const done = await Promise.all(Array.from({ length: files }, (_, index) => killMany(index)));
    const sum = (of: 'locks' | 'parts' | 'writes'): number => done.reduce((all, one) => all + one[of], 0);
    // Most were killed while they wrote; were it none, nothing would have been tested.
    const all = kills * files;
    expect(sum('locks')).toBeGreaterThan(0.15 * all);
    expect(sum('parts')).toBeGreaterThan(0.025 * all);
    expect(sum('writes')).toBeGreaterThan(2.5 * all);
    for (const { file } of done) {
      // One more dead writer, so that whatever a killed one left while it cleared up is cleared, too.
      await writeOnce(file);
      await plantLock(file, { pid: endedPid() });
      await writeOnce(file);
      expect(await beside(file)).toEqual(['job.yaml']);
      await expect(readFile(lockPath(file))).rejects.toMatchObject({ code: 'ENOENT' });
    }
  }, 300_000);
});
