import { resolve } from 'node:path';
import { takeOut } from '../../input/edit/insertion.ts';
import { decode } from '../../input/yaml/decode.ts';
import { digest } from '../disk/digest.ts';
import { readPlain } from '../disk/read-plain.ts';
import { isStdin } from '../disk/read-stdin.ts';
import { replaceFile } from '../disk/replace-file.ts';
import { writablePath } from '../disk/writable-path.ts';
import type { Io } from '../io.ts';
import { encode, lockFor, type Outcome, trouble, writeTrouble } from './change-job.ts';
import { changesMade, keepChanges, type Made, settled } from './undo-store.ts';

export type TakenBack =
  | { readonly kind: 'taken-back'; readonly made: Made; readonly left: number; readonly path: string }
  | Outcome;

/** The text before a change, or null where the record does not lead back to the file that was. */
const before = (bytes: Uint8Array, made: Made): Uint8Array | null => {
  const decoded = decode(bytes);
  if ('problem' in decoded) return null;
  const back = encode(takeOut(decoded.text, made.stretches), bytes);
  return digest(back) === made.before ? back : null;
};

const takeBackLocked = async (
  file: string,
  path: string,
  io: Io,
  only: string | null,
): Promise<TakenBack> => {
  const lock = await lockFor(file, path, io);
  try {
    const bytes = readPlain(path);
    const made = settled(await changesMade(path, io), digest(bytes));
    const last = made.at(-1);
    if (!last) {
      return trouble(
        `nothing is on record that could be taken back in ${file}`,
        'only what add, fill, log, fix, waive and packs upgrade wrote, by this user on this machine, is',
      );
    }
    if (only !== null && last.after !== only) {
      return trouble(`${file} was changed by somebody else since; nothing was taken back`);
    }
    const old = digest(bytes) === last.after ? before(bytes, last) : null;
    if (old === null) {
      const message = `${file} has changed since the last change on record (${last.what}); nothing was taken back`;
      return trouble(message, 'take it out in an editor');
    }
    if ((await replaceFile(path, last.after, old, lock)) !== null) {
      return trouble(`${file} is being changed by another program; nothing was taken back`, 'try again');
    }
    await keepChanges(path, made.slice(0, -1), io);
    return { kind: 'taken-back', made: last, left: made.length - 1, path };
  } finally {
    await lock.release();
  }
};

/**
 * Takes back the last change that these commands made to a file, if nobody has changed it since.
 *
 * @param only the SHA-256 that the change to be taken back left behind; null for whatever was last
 */
export const takeBack = async (file: string, io: Io, only: string | null = null): Promise<TakenBack> => {
  if (isStdin(file)) return trouble('standard input cannot be changed', 'name the file');
  try {
    const path = await writablePath(resolve(io.cwd, file));
    return await takeBackLocked(file, path, io, only);
  } catch (error) {
    return writeTrouble(error, file);
  }
};
