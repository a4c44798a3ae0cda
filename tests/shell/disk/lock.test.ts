import { randomUUID } from 'node:crypto';
import { readFile, rename, unlink, utimes, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { Held, type LockOptions, lockPath, takeLock, usualLock } from '../../../src/shell/disk/lock.ts';
import { beside, call, endedPid, holderOf, job, jobFile, plantLock, textOf } from '../save/job-file.ts';

/** What happens elsewhere while the program waits. */
const elsewhere: { during: (() => Promise<void>) | null } = { during: null };

vi.mock('node:timers/promises', () => ({
  setTimeout: async () => {
    const { during } = elsewhere;
    elsewhere.during = null;
    await during?.();
  },
}));

afterEach(() => {
  elsewhere.during = null;
  vi.restoreAllMocks();
});

const impatient: LockOptions = { patience: -1, staleAfter: 600_000 };

const held = async (file: string, options = impatient): Promise<Held> => {
  const error: unknown = await takeLock(file, options).catch((thrown: unknown) => thrown);
  if (!(error instanceof Held)) throw new Error('the lock was taken');
  return error;
};

/** Makes a file as old as that, for what looks at its age. */
const age = (path: string, seconds: number): Promise<void> => {
  const then = Date.now() / 1000 - seconds;
  return utimes(path, then, then);
};

describe('a lock', () => {
  it('says who holds the file, and is gone once it is released', async () => {
    const file = await jobFile();
    const lock = await takeLock(file);
    expect(JSON.parse(await textOf(lockPath(file)))).toEqual(lock.holder);
    expect(lock.holder).toMatchObject({ pid: process.pid, host: hostname() });
    expect(await beside(file)).toEqual(['.job.yaml.lock', 'job.yaml']);
    expect(await lock.isOurs()).toBe(true);
    await lock.release();
    expect(await lock.isOurs()).toBe(false);
    expect(await beside(file)).toEqual(['job.yaml']);
  });

  it('is waited for', async () => {
    const file = await jobFile();
    const first = await takeLock(file);
    const order: string[] = [];
    elsewhere.during = async () => {
      order.push('released');
      await first.release();
    };
    const second = await takeLock(file);
    order.push('taken');
    expect(order).toEqual(['released', 'taken']);
    expect(await second.isOurs()).toBe(true);
    expect(await first.isOurs()).toBe(false);
    // A release that comes late takes nothing from the next.
    await first.release();
    expect(await second.isOurs()).toBe(true);
  });

  it('of a process that lives is not broken, and its holder is told', async () => {
    const file = await jobFile();
    const path = await plantLock(file, { pid: process.ppid });
    await age(path, 500);
    const { holder, path: told } = await held(file);
    expect(holder).toEqual(holderOf(file, { pid: process.ppid }));
    expect(told).toBe(path);
    expect(JSON.parse(await textOf(path))).toEqual(holder);
  });

  it('of a process that has ended is broken at once, and its half-written file cleared away', async () => {
    const file = await jobFile();
    const { temporary } = holderOf(file);
    await writeFile(temporary, 'worksheet: 1\njo');
    await plantLock(file, { pid: endedPid() });
    const lock = await takeLock(file);
    expect(await beside(file)).toEqual(['.job.yaml.lock', 'job.yaml']);
    await lock.release();
    expect(await textOf(file)).toBe(job);
  });

  it.each([0, -1])('of process %i, which is none, is broken at once', async (pid) => {
    const file = await jobFile();
    await plantLock(file, { pid });
    const lock = await takeLock(file);
    expect(await lock.isOurs()).toBe(true);
    await lock.release();
  });

  it('of another machine is waited for, which is said at once', async () => {
    const file = await jobFile();
    const path = await plantLock(file, { host: 'another-machine' });
    const waits: string[] = [];
    elsewhere.during = () => unlink(path);
    const lock = await takeLock(file, { ...usualLock, onWait: ({ host }) => waits.push(host) });
    expect(waits).toEqual(['another-machine']);
    await lock.release();
  });

  it.each(['job.yaml', '.other.yaml.0123abcd.part', '.job.yaml.part', '.job.yaml.0123abcd.part.yaml'])(
    'that names %s as its half-written file does not get that removed',
    async (name) => {
      const file = await jobFile();
      const temporary = join(dirname(file), name);
      if (temporary !== file) await writeFile(temporary, 'kept');
      await plantLock(file, { pid: endedPid(), temporary });
      await (await takeLock(file)).release();
      expect(await beside(file)).toEqual(name === 'job.yaml' ? [name] : [name, 'job.yaml'].sort());
    },
  );

  it('that names a file in another folder does not get that removed', async () => {
    const file = await jobFile();
    const other = await jobFile();
    const temporary = holderOf(other).temporary;
    await writeFile(temporary, 'kept');
    await plantLock(file, { pid: endedPid(), temporary });
    await (await takeLock(file)).release();
    expect(await textOf(temporary)).toBe('kept');
  });

  it('of another machine is not broken, whatever runs here', async () => {
    const file = await jobFile();
    await plantLock(file, { pid: endedPid(), host: 'another-machine' });
    expect((await held(file)).holder?.host).toBe('another-machine');
  });

  it('is broken once it is older than any write takes', async () => {
    const file = await jobFile();
    const path = await plantLock(file, { host: 'another-machine' });
    await age(path, 599);
    await held(file);
    await age(path, 601);
    const lock = await takeLock(file);
    expect(await lock.isOurs()).toBe(true);
    await lock.release();
    expect(await beside(file)).toEqual(['job.yaml']);
  });

  it.each([
    ['is empty', ''],
    ['is no JSON', '{"pid": 12'],
    ['does not say all', '{"pid": 1, "token": "t"}'],
    ['says nothing that can be', JSON.stringify({ ...holderOf('/x/job.yaml'), pid: 'one' })],
  ])('that %s is given a moment to be signed, and not more', async (_, content) => {
    const file = await jobFile();
    const path = lockPath(file);
    await writeFile(path, content);
    const { holder } = await held(file);
    expect(holder).toBeNull();
    expect(await textOf(path)).toBe(content);
    await age(path, 3);
    const lock = await takeLock(file);
    expect(await lock.isOurs()).toBe(true);
  });

  it('of another is left alone by one who lost it', async () => {
    const file = await jobFile();
    const lock = await takeLock(file);
    const path = await plantLock(file);
    expect(await lock.isOurs()).toBe(false);
    await lock.release();
    expect(JSON.parse(await textOf(path))).toEqual(holderOf(file));
  });

  it('that another moved aside by mistake is released when it is back', async () => {
    const file = await jobFile();
    const lock = await takeLock(file);
    const path = lockPath(file);
    await rename(path, `${path}.aside`);
    elsewhere.during = () => rename(`${path}.aside`, path);
    await lock.release();
    expect(await beside(file)).toEqual(['job.yaml']);
  });

  it('that a process moved aside before it died is cleared away with the next that is taken', async () => {
    const file = await jobFile();
    const path = lockPath(file);
    const left = `${path}.${endedPid()}.${randomUUID()}`;
    const beingLookedAt = `${path}.${process.ppid}.${randomUUID()}`;
    const others = `${path}s.${endedPid()}.${randomUUID()}`;
    for (const one of [left, beingLookedAt, others]) await writeFile(one, '{}');
    await (await takeLock(file)).release();
    const rest = [beingLookedAt, others, file].map((one) => one.slice(dirname(file).length + 1));
    expect(await beside(file)).toEqual(rest.sort());
  });

  it('clears away what was left half-written beside its file, once nobody can be at it any more', async () => {
    const file = await jobFile();
    const old = [
      '.job.yaml.0123abcd.part',
      '.job.yaml.0123abcd.part.old',
      '.job.yaml.0123abcd.new',
      '.other.yaml.0123abcd.part',
      '.job.yaml.part',
    ];
    const young = '.job.yaml.4567abcd.part';
    for (const name of [...old, young]) await writeFile(join(dirname(file), name), '');
    for (const name of old) await age(join(dirname(file), name), 601);
    await age(join(dirname(file), young), 599);
    await (await takeLock(file)).release();
    expect(await beside(file)).toEqual([young, '.job.yaml.part', '.other.yaml.0123abcd.part', 'job.yaml']);
  });

  it('of a file that is gone with its folder cannot be taken', async () => {
    const file = join(dirname(await jobFile()), 'gone', 'job.yaml');
    await expect(takeLock(file)).rejects.toMatchObject({ code: 'ENOENT' });
  });
});

describe('a command that finds the file held', () => {
  /** Lets time pass as it is looked at, so that nobody has to wait for it. */
  const hurry = (): void => {
    let now = Date.now();
    vi.spyOn(Date, 'now').mockImplementation(() => {
      now += 3000;
      return now;
    });
  };

  it.each([
    ['add', ['add', 'job.yaml', 'rest', 'supply=12.2']],
    ['log', ['log', 'job.yaml', 'replaced', 'sensor.LR']],
  ])('%s tells who holds it and what to do, and writes nothing', async (_, words) => {
    const file = await jobFile();
    const path = await plantLock(file, { pid: process.ppid });
    hurry();
    const { code, stdout, stderr } = await call(file, ...words);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr.replace(/\s+/gu, ' ')).toContain(
      `job.yaml is being written by process ${process.ppid} on ${hostname()} since 2026-03-02T08:00:00.000Z; nothing was written`,
    );
    expect(stderr.replace(/\s+/gu, '')).toContain(`remove${path}`);
    expect(await textOf(file)).toBe(job);
    expect(await beside(file)).toEqual(['.job.yaml.lock', 'job.yaml']);
  });

  it('undo does the same', async () => {
    const file = await jobFile();
    await call(file, 'add', 'job.yaml', 'rest', 'supply=12.2');
    const before = await readFile(file);
    await plantLock(file, { pid: process.ppid });
    hurry();
    const { code, stderr } = await call(file, 'undo', 'job.yaml');
    expect([code, stderr]).toEqual([2, expect.stringContaining(`process ${process.ppid}`)]);
    expect(await readFile(file)).toEqual(before);
  });

  it('goes on at once where the holder is dead', async () => {
    const file = await jobFile();
    await plantLock(file, { pid: endedPid() });
    const { code } = await call(file, 'add', 'job.yaml', 'rest', 'supply=12.2');
    expect(code).toBe(0);
    expect(await textOf(file)).toContain('12.2');
    expect(await beside(file)).toEqual(['job.yaml']);
  });
});
