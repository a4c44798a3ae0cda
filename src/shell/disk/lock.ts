import { randomUUID } from 'node:crypto';
import { link, open, readdir, rename, stat, unlink } from 'node:fs/promises';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { clearLeft, forgottenAfter } from './left-behind.ts';
import { readPlainText } from './read-plain.ts';

/** Who holds a file: said to whoever waits for it, and enough to tell whether the holder is still there. */
export interface Holder {
  readonly pid: number;
  readonly host: string;
  /** When the lock was taken, as ISO 8601 in UTC. */
  readonly at: string;
  readonly token: string;
  /** The half-written file beside the job, to be cleared away if its writer dies. */
  readonly temporary: string;
}

export interface LockOptions {
  /** How long to wait for another writer, in milliseconds. */
  readonly patience: number;
  /** Told once as soon as another writer is in the way. */
  readonly onWait?: (holder: Holder) => void;
  /** After how many milliseconds a lock is given up as forgotten; a write takes less than one second. */
  readonly staleAfter: number;
}

/** Ten minutes leave room for two machines whose clocks differ; on one machine a dead owner is seen at once. */
export const usualLock: LockOptions = { patience: 10_000, staleAfter: forgottenAfter };

/** A write takes less than this, in milliseconds; whoever waits longer is told why. */
const toldAfter = 1_000;

/** Between making a lock and writing who holds it lies less than this, unless the writer died there. */
const unsignedFor = 2_000;

export interface Lock {
  readonly holder: Holder;
  /** Whether it is still ours: a machine that slept may find its lock given to another. */
  readonly isOurs: () => Promise<boolean>;
  readonly release: () => Promise<void>;
}

/** Another writer held the file for longer than anybody would wait. */
export class Held extends Error {
  readonly holder: Holder | null;
  readonly path: string;
  constructor(path: string, holder: Holder | null) {
    super('the file is held by another writer');
    this.path = path;
    this.holder = holder;
  }
}

/** Where the lock of a file lies: beside it, hidden, and not matched by patterns for job files. */
export const lockPath = (file: string): string => join(dirname(file), `.${basename(file)}.lock`);

const isGone = (error: unknown): boolean => (error as NodeJS.ErrnoException).code === 'ENOENT';

const parseHolder = (text: string): Holder | null => {
  try {
    const value = JSON.parse(text) as Partial<Holder>;
    const texts = [value.host, value.at, value.token, value.temporary];
    const whole = Number.isInteger(value.pid) && texts.every((one) => typeof one === 'string');
    return whole ? (value as Holder) : null;
  } catch {
    return null;
  }
};

/** A lock is one line; whatever is larger is none. */
const largestLock = 1 << 16;

const readHolder = (path: string): Holder | null => {
  try {
    return parseHolder(readPlainText(path, largestLock));
  } catch {
    return null;
  }
};

/** Whether no process of this number runs on this machine. */
const hasEnded = (pid: number): boolean => {
  // These name groups of processes, which no writer is.
  if (pid <= 0) return true;
  try {
    process.kill(pid, 0);
    return false;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ESRCH';
  }
};

/** Whether the process that took a lock on this machine has ended; of other machines nothing is known. */
const isDead = ({ pid, host }: Holder): boolean => host === hostname() && hasEnded(pid);

/** Milliseconds since a lock was written, by the clock of the disk that it lies on. */
const ageOf = async (path: string): Promise<number> => Date.now() - (await stat(path)).mtimeMs;

/** Clears the half-written file that a lock names, and never anything else: whatever the lock says, a job stays. */
const clearTemporary = async (path: string, { temporary }: Holder): Promise<void> => {
  const stem = basename(path, '.lock');
  const name = basename(temporary);
  const isOne = name.startsWith(`${stem}.`) && /^\.[0-9a-f]{8}\.part$/u.test(name.slice(stem.length));
  if (!isOne || dirname(temporary) !== dirname(path)) return;
  // The second is the other name of the file that was being replaced.
  for (const left of [temporary, `${temporary}.old`]) await unlink(left).catch(() => undefined);
};

/** Clears locks that a process moved aside and then died before it could take them away. */
const sweepAside = async (path: string): Promise<void> => {
  const stem = `${basename(path)}.`;
  for (const name of await readdir(dirname(path)).catch(() => [])) {
    const pid = name.startsWith(stem)
      ? /^(\d+)\.[0-9a-f-]{36}$/u.exec(name.slice(stem.length))?.[1]
      : undefined;
    if (pid && hasEnded(Number(pid))) await unlink(join(dirname(path), name)).catch(() => undefined);
  }
};

/**
 * Clears away a lock whose owner is gone. It is moved aside first, and looked at again: if another process broke it
 * in the meantime and took its own, that one is put back.
 */
const breakLock = async (path: string, judged: Holder | null): Promise<void> => {
  // What a dead writer left is cleared while its lock still names it: whoever dies here leaves that to the next.
  if (judged && isDead(judged)) await clearTemporary(path, judged);
  const aside = `${path}.${process.pid}.${randomUUID()}`;
  try {
    await rename(path, aside);
  } catch (error) {
    if (isGone(error)) return;
    throw error;
  }
  const moved = readHolder(aside);
  if (moved && moved.token !== judged?.token) {
    // If a third has come in between, this one has lost it, and notices before it writes.
    await link(aside, path).catch(() => undefined);
    await unlink(aside).catch(() => undefined);
    return;
  }
  if (judged) await clearTemporary(path, judged);
  await unlink(aside).catch(() => undefined);
};

const tryTake = async (path: string, holder: Holder): Promise<boolean> => {
  let handle: Awaited<ReturnType<typeof open>>;
  try {
    handle = await open(path, 'wx');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
  try {
    await handle.writeFile(JSON.stringify(holder));
  } catch (error) {
    // A disk without room takes the name and not the text; nobody should wait for that.
    await unlink(path).catch(() => undefined);
    throw error;
  } finally {
    await handle.close();
  }
  return true;
};

/** Breaks the lock at a path if its owner is dead or it is older than any write takes. */
const breakIfForgotten = async (path: string, staleAfter: number): Promise<void> => {
  const holder = readHolder(path);
  try {
    const dead = holder !== null && isDead(holder);
    const longest = holder === null ? Math.min(unsignedFor, staleAfter) : staleAfter;
    if (dead || (await ageOf(path)) > longest) await breakLock(path, holder);
  } catch (error) {
    if (!isGone(error)) throw error;
  }
};

/**
 * Takes the lock of a file, waiting for another writer as long as `patience` says; throws `Held` after that.
 *
 * @param file the real path of the file, symbolic links followed
 */
export const takeLock = async (file: string, options: LockOptions = usualLock): Promise<Lock> => {
  const path = lockPath(file);
  const token = randomUUID();
  const temporary = join(dirname(file), `.${basename(file)}.${token.slice(0, 8)}.part`);
  const started = Date.now();
  const take = (): Holder => ({
    pid: process.pid,
    host: hostname(),
    at: new Date().toISOString(),
    token,
    temporary,
  });
  let holder = take();
  let told = false;
  while (!(await tryTake(path, holder))) {
    await breakIfForgotten(path, options.staleAfter);
    const other = told ? null : readHolder(path);
    // Of another machine nobody knows whether its writer is still there, so that is said at once.
    if (other !== null && (other.host !== hostname() || Date.now() - started > toldAfter)) {
      options.onWait?.(other);
      told = true;
    }
    if (Date.now() - started > options.patience) throw new Held(path, readHolder(path));
    await pause(5 + (process.pid % 10));
    holder = take();
  }
  // Nothing is left for ever, however its writer ended: whoever comes next clears it.
  await sweepAside(path);
  clearLeft(dirname(file), basename(file));
  const isOurs = async (): Promise<boolean> => readHolder(path)?.token === token;
  const release = async (): Promise<void> => {
    // Another process may have moved it aside by mistake and be about to put it back: left there it would hold
    // everybody up for as long as this process lives.
    for (let tries = 0; tries < 3; tries += 1) {
      const found = readHolder(path);
      if (found?.token === token) return await unlink(path).catch(() => undefined);
      if (found !== null) return;
      await pause(20);
    }
  };
  return { holder, isOurs, release };
};
