import { type FileHandle, open, rename, stat, unlink } from 'node:fs/promises';
import { dirname } from 'node:path';
import { digest } from './digest.ts';
import type { Lock } from './lock.ts';
import { readPlain } from './read-plain.ts';

/** What kept a file from being replaced; nothing was changed. */
export type NotReplaced = 'changed-meanwhile' | 'lock-lost';

/** A folder remembers its names for sure only once it is flushed, too; some systems cannot do that. */
const flushFolder = async (folder: string): Promise<void> => {
  const handle = await open(folder, 'r').catch(() => null);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
};

/** Gives a new file the rights and, where that is allowed, the owner of the one that it is to replace. */
const keepRights = async (
  handle: FileHandle,
  like: { mode: number; uid: number; gid: number },
): Promise<void> => {
  const own = await handle.stat();
  if (own.uid !== like.uid || own.gid !== like.gid) {
    await handle.chown(like.uid, like.gid).catch(() => undefined);
  }
  await handle.chmod(like.mode & 0o7777);
};

/**
 * Replaces a file whole: the new bytes are written beside it, flushed, and moved over it in one step, so that a
 * crash at any moment leaves the old file or the new one. Just before that step the file is looked at once more: if
 * it is not the one that was read, nothing is replaced.
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
  const handle = await open(temporary, 'wx', 0o600);
  let moved = false;
  try {
    try {
      await handle.writeFile(bytes);
      await keepRights(handle, await stat(file));
      await handle.sync();
    } finally {
      await handle.close();
    }
    if (digest(readPlain(file)) !== before) return 'changed-meanwhile';
    if (!(await lock.isOurs())) return 'lock-lost';
    await rename(temporary, file);
    moved = true;
  } finally {
    if (!moved) await unlink(temporary).catch(() => undefined);
  }
  await flushFolder(dirname(file));
  return null;
};
