import { digest } from '../disk/digest.ts';
import type { Lock } from '../disk/lock.ts';
import { savedAt } from '../disk/on-disk.ts';
import { replaceFile } from '../disk/replace-file.ts';
import type { Io } from '../io.ts';
import { shownPath } from '../shown-path.ts';
import { begun, byOtherHands, type Cause, grown, type History, upToNow } from './history.ts';
import { keepHistory, readHistory } from './undo-store.ts';

const isoText = (at: number): string => new Date(at).toISOString();

/** The versions of a file, up to the bytes that it holds now. */
export const historyOf = (path: string, bytes: Uint8Array, io: Io): History => {
  const saved = isoText(savedAt(path) ?? io.now());
  const known = readHistory(path, io);
  return known === null ? begun(bytes, saved) : upToNow(known, bytes, saved);
};

export interface OnRecord {
  /** SHA-256 of the file as it is now. */
  readonly digest: string;
  /** False where the change could not be put on record, so that `undo` will not know of it. */
  readonly onRecord: boolean;
}

/** Keeps what another program saved in the moment of a change and what nothing else holds any more. */
const keepLost = (path: string, history: History, bytes: Uint8Array, io: Io): void => {
  const cause: Cause = { at: isoText(io.now()), by: null, what: byOtherHands, as: null };
  const kept = grown(history, bytes, cause);
  const file = shownPath(path, io.cwd);
  const number = kept.versions.at(-1)?.number;
  io.stderr.write(
    keepHistory(path, kept, io)
      ? `cornerwise: two programs saved ${file} in one moment; the text that is not in it is brought back by: cornerwise undo ${file} --to ${number}\n`
      : `cornerwise: two programs saved ${file} in one moment, and one of the two texts could not be kept\n`,
  );
};

/**
 * Puts bytes in the place of a file's own, and the change on record; null where another program wrote to the file since
 * it was read.
 *
 * @param history up to the bytes that the file held when it was read
 * @param mustKeep where nothing is to be written unless it can be put on record
 * @throws what the system says; the file is then as it was
 */
export const putOnRecord = async (
  path: string,
  history: History,
  bytes: Uint8Array,
  cause: Omit<Cause, 'at'>,
  lock: Lock,
  io: Io,
): Promise<OnRecord | null> => {
  // First the record, so that a change that was made is on it whatever happens.
  const next = grown(history, bytes, { ...cause, at: isoText(io.now()) });
  const onRecord = keepHistory(path, next, io);
  let lost: Uint8Array | null = null;
  let made = false;
  try {
    const refused = await replaceFile(path, digest(history.newest), bytes, lock, {
      lost: (saved) => {
        lost = saved;
      },
      shared: () =>
        io.stderr.write(
          `cornerwise: ${shownPath(path, io.cwd)} had another name on the disk, which still leads to the text before\n`,
        ),
    });
    made = refused === null;
  } finally {
    if (!made && onRecord) keepHistory(path, history, io);
    if (lost !== null) keepLost(path, history, lost, io);
  }
  return made ? { digest: digest(bytes), onRecord } : null;
};
