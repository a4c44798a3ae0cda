import { linkSync, statSync } from 'node:fs';
import { type FileHandle, open, stat, unlink } from 'node:fs/promises';
import { dirname } from 'node:path';
import { digest } from './digest.ts';
import type { Lock } from './lock.ts';
import { readPlain } from './read-plain.ts';
import { moveFile } from './write-whole.ts';

/** What kept a file from being replaced; nothing was changed. */
export type NotReplaced = 'changed-meanwhile' | 'lock-lost';

/** A folder remembers its names for sure only once it is flushed, too; some systems cannot do that. */
const flushFolder = async (folder: string): Promise<void> => {
  const handle = await open(folder, 'r').catch(() => null);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
};

const groupRights = 0o070;

/**
 * Gives a new file the rights and, where that is allowed, the owner of the one that it is to replace; else the group alone.
 *
 * @throws EPERM where a group would lose the file
 */
const keepRights = async (
  handle: FileHandle,
  like: { mode: number; uid: number; gid: number },
): Promise<void> => {
  const own = await handle.stat();
  if (own.uid !== like.uid || own.gid !== like.gid) {
    await handle
      .chown(like.uid, like.gid)
      .catch(() => handle.chown(own.uid, like.gid))
      .catch((error: unknown) => {
        if (own.gid !== like.gid && (like.mode & groupRights) !== 0) throw error;
      });
  }
  await handle.chmod(like.mode & 0o7777);
};

/** Where the file that is being replaced stays for a moment under a second name. */
const secondName = (temporary: string): string => `${temporary}.old`;

/** Bytes of a file; null where it cannot be read any more. */
const bytesIfAny = (path: string): Uint8Array | null => {
  try {
    return readPlain(path);
  } catch {
    return null;
  }
};

const isThere = (bytes: Uint8Array | null, sha256: string): boolean =>
  bytes !== null && digest(bytes) === sha256;

/** Gives a file a second name; false on a disk that knows no such thing. */
const nameTwice = (file: string, second: string): boolean => {
  try {
    linkSync(file, second);
    return true;
  } catch {
    return false;
  }
};

/** What the caller is told of a file that is replaced. */
export interface Told {
  /** What another program saved in the very moment, and a later save took the place of: it is nowhere else any more. */
  readonly lost?: (bytes: Uint8Array) => void;
  /** The file has other names, which go on leading to what it was. */
  readonly shared?: () => void;
}

/** Whether a file that was moved over is not the one expected, by its second name; it may have none. */
const isAnother = (second: string, expected: string): boolean => {
  const bytes = bytesIfAny(second);
  return bytes !== null && digest(bytes) !== expected;
};

/** Whether two names lead to one file. */
const isOneFile = (one: string, other: string): boolean => {
  const [a, b] = [one, other].map((name) => statSync(name, { bigint: true }));
  return a?.ino === b?.ino && a?.dev === b?.dev;
};

/**
 * Moves a file over another, which keeps a second name. Between the last look and the move as little happens as can.
 *
 * @returns `left` where the other is not the one expected, so that nothing was done; `another` where somebody saved it
 * still after that look: it has nothing but its second name now
 * @throws what the system says, as where the other is gone
 */
const moveOver = (
  from: string,
  to: string,
  second: string,
  expected: string,
): 'moved' | 'left' | 'another' => {
  const named = nameTwice(to, second);
  if (!isThere(readPlain(to), expected) || (named && !isOneFile(to, second))) return 'left';
  moveFile(from, to);
  return !named || isThere(bytesIfAny(second), expected) ? 'moved' : 'another';
};

/**
 * Puts back what somebody saved in the moment of the step. What was saved still later stays: of several saves the one that
 * is left out is given back.
 */
const putBack = (saved: string, file: string, second: string, ours: string): Uint8Array | null => {
  const bytes = bytesIfAny(saved);
  try {
    const moved = moveOver(saved, file, second, ours);
    if (moved === 'moved') return null;
    return moved === 'left' ? bytes : bytesIfAny(second);
  } catch {
    return bytes;
  }
};

/**
 * Replaces a file whole: the new bytes are written beside it, flushed, and moved over it in one step, so that a
 * crash at any moment leaves the old file or the new one. Just before that step the file is looked at once more: if
 * it is not the one that was read, nothing is replaced. What somebody saved between that look and the step is put back.
 *
 * @param file its real path, so that a symbolic link to it stays one
 * @param before SHA-256 of the bytes that the new ones were made from
 */
export const replaceFile = async (
  file: string,
  before: string,
  bytes: Uint8Array,
  lock: Lock,
  told: Told = {},
): Promise<NotReplaced | null> => {
  const { temporary } = lock.holder;
  const old = secondName(temporary);
  const handle = await open(temporary, 'wx', 0o600);
  try {
    let names: number;
    try {
      await handle.writeFile(bytes);
      const like = await stat(file);
      names = like.nlink;
      await keepRights(handle, like);
      await handle.sync();
    } finally {
      await handle.close();
    }
    if (!(await lock.isOurs())) return 'lock-lost';
    const moved = moveOver(temporary, file, old, before);
    if (moved === 'left') return 'changed-meanwhile';
    if (moved === 'moved') await flushFolder(dirname(file));
    // Who had the old file open may have written to it only now.
    if (moved === 'another' || isAnother(old, before)) {
      const lost = putBack(old, file, temporary, digest(bytes));
      if (lost !== null) told.lost?.(lost);
      return 'changed-meanwhile';
    }
    if (names > 1) told.shared?.();
  } finally {
    for (const left of [temporary, old]) await unlink(left).catch(() => undefined);
  }
  return null;
};
