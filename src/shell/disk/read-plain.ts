import { type BigIntStats, closeSync, constants, fstatSync, openSync, readSync, statSync } from 'node:fs';
import { largest } from '../../input/yaml/decode.ts';

/** What lies at a path where a plain file is wanted. */
export type NotAFile = 'folder' | 'pipe' | 'device' | 'socket';

/** Something other than a plain file, which is not read: it could keep the program waiting for ever. */
export class NotPlain extends Error {
  readonly code = 'not-plain';
  readonly kind: NotAFile;
  constructor(kind: NotAFile) {
    super(`a ${kind}, not a plain file`);
    this.kind = kind;
  }
}

/** More than may be read. */
export class TooLarge extends Error {
  readonly code = 'too-large';
  /** In bytes; null where nobody knows how much more would have come. */
  readonly size: number | null;
  readonly limit: number;
  constructor(size: number | null, limit: number) {
    super(`larger than ${limit} bytes`);
    this.size = size;
    this.limit = limit;
  }
}

const kindOf = (found: BigIntStats): NotAFile | null => {
  if (found.isFile()) return null;
  if (found.isDirectory()) return 'folder';
  if (found.isFIFO()) return 'pipe';
  return found.isSocket() ? 'socket' : 'device';
};

const refuse = (found: BigIntStats): void => {
  const kind = kindOf(found);
  if (kind !== null) throw new NotPlain(kind);
};

/**
 * Opens a plain file to be read. What lies there is looked at before it is opened, since a pipe or a device notices that,
 * and once more behind it, since it may have been exchanged. It must be closed with `closePlain`.
 *
 * @throws NotPlain, or what the system says
 */
export const openPlain = (path: string): number => {
  refuse(statSync(path, { bigint: true }));
  const file = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    refuse(fstatSync(file, { bigint: true }));
    return file;
  } catch (error) {
    closeSync(file);
    throw error;
  }
};

export const closePlain = (file: number): void => closeSync(file);

/** Bytes of an open file from a place on; fewer than asked for only at its end. */
export const readAt = (file: number, size: number, at: number): Uint8Array => {
  const bytes = Buffer.allocUnsafe(size);
  let length = 0;
  while (length < size) {
    const more = readSync(file, bytes, length, size - length, at + length);
    if (more === 0) break;
    length += more;
  }
  return bytes.subarray(0, length);
};

/** All bytes of an open file, and whether it stayed as it was meanwhile. */
const readOnce = (file: number, limit: number): { readonly bytes: Uint8Array; readonly isWhole: boolean } => {
  const before = fstatSync(file, { bigint: true });
  if (before.size > limit) throw new TooLarge(Number(before.size), limit);
  // Some files of the system say that they are empty, and are not: they are read to their end.
  const expected = Number(before.size);
  const first = readAt(file, expected + 1, 0);
  const bytes =
    first.length <= expected
      ? first
      : Buffer.concat([first, readAt(file, limit + 1 - first.length, first.length)]);
  if (bytes.length > limit) throw new TooLarge(bytes.length, limit);
  const after = fstatSync(file, { bigint: true });
  return { bytes, isWhole: after.size === before.size && after.mtimeNs === before.mtimeNs };
};

/** Times that a file is read anew because somebody wrote to it meanwhile. */
const mostTries = 3;

/**
 * The bytes of a plain file. This is the way in for everything that is read, but for standard input. Nothing else than a
 * plain file is opened, no more than the limit is read, and a file that is larger is known by its size alone. One that
 * changes while it is read is read again, a few times.
 *
 * A sweep reads thousands of small files, for which waiting for each is twice as fast as asking for many at once.
 *
 * @param limit in bytes
 * @throws NotPlain, TooLarge, or what the system says
 */
export const readPlain = (path: string, limit: number = largest): Uint8Array => {
  const file = openPlain(path);
  try {
    for (let tries = 1; ; tries += 1) {
      const { bytes, isWhole } = readOnce(file, limit);
      if (isWhole || tries === mostTries) return bytes;
    }
  } finally {
    closePlain(file);
  }
};

/** The bytes of a plain file as UTF-8 text. */
export const readPlainText = (path: string, limit?: number): string =>
  new TextDecoder().decode(readPlain(path, limit));
