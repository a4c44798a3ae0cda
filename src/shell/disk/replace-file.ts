import { type FileHandle, link, open, stat, unlink } from 'node:fs/promises';
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

/** Whether a file that was replaced is the one that was read; one that cannot be read any more was written to. */
const isStill = (path: string, before: string): boolean => {
  try {
    return digest(readPlain(path)) === before;
  } catch {
    return false;
  }
};

/** Gives a file a second name; false on a disk that knows no such thing. */
const nameTwice = async (file: string, second: string): Promise<boolean> => {
  try {
    await link(file, second);
    return true;
  } catch {
    return false;
  }
};

/**
 * Replaces a file whole: the new bytes are written beside it, flushed, and moved over it in one step, so that a
 * crash at any moment leaves the old file or the new one. Just before that step the file is looked at once more: if
 * it is not the one that was read, nothing is replaced. The old file keeps a second name until it was looked at again
 * after the step: what somebody saved into it in between is put back.
 *
 * @param file its real path, so that a symbolic link to it stays one
 * @param before SHA-256 of the bytes that the new ones were made from
 */
export const replaceFile = async (
  file: string,
  before: string,
  bytes: Uint8Array,
  lock: Lock,
): Promise<NotReplaced | null> => {
  const { temporary } = lock.holder;
  const old = secondName(temporary);
  const handle = await open(temporary, 'wx', 0o600);
  let moved = false;
  let named = false;
  try {
    try {
      await handle.writeFile(bytes);
      await keepRights(handle, await stat(file));
      await handle.sync();
    } finally {
      await handle.close();
    }
    if (!(await lock.isOurs())) return 'lock-lost';
    named = await nameTwice(file, old);
    if (digest(readPlain(file)) !== before) return 'changed-meanwhile';
    // Without a pause after the look, so that as little as possible can come between.
    moveFile(temporary, file);
    moved = true;
    if (named && !isStill(old, before)) {
      moveFile(old, file);
      named = false;
      return 'changed-meanwhile';
    }
  } finally {
    if (!moved) await unlink(temporary).catch(() => undefined);
    if (named) await unlink(old).catch(() => undefined);
  }
  await flushFolder(dirname(file));
  return null;
};
