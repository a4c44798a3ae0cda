import { randomUUID } from 'node:crypto';
import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** Somewhere that text goes to, piece by piece. */
export interface Sink {
  readonly write: (text: string) => void;
}

const pieceSize = 1 << 16;

/** Writes pieces in larger ones, so that not every line is a system call. */
export const gathered = (pieces: Iterable<string>, sink: Sink): void => {
  let text = '';
  for (const piece of pieces) {
    text += piece;
    if (text.length < pieceSize) continue;
    sink.write(text);
    text = '';
  }
  if (text !== '') sink.write(text);
};

/**
 * Writes all of some bytes to an open file, however few the system takes at once.
 *
 * @throws what the system says, with the number of bytes that were `written` before
 */
export const writeAll = (file: number, bytes: Uint8Array): void => {
  let written = 0;
  try {
    while (written < bytes.length) written += writeSync(file, bytes, written);
  } catch (error) {
    throw Object.assign(error as Error, { written });
  }
};

export interface WriteOptions {
  /** The rights of the file; the usual ones by default. */
  readonly mode?: number;
  /** Whether it must outlast a loss of power: for what cannot be made again. */
  readonly flush?: boolean;
}

/**
 * Writes a file beside itself and moves it over, so that readers find the old file or the whole new one.
 *
 * @throws what the system says; the file is then as it was, and nothing lies beside it
 */
export const writeWhole = (
  path: string,
  pieces: Iterable<string>,
  { mode = 0o666, flush = false }: WriteOptions = {},
): void => {
  // The folder may be shared between machines, where process ids are not unique.
  const temporary = join(dirname(path), `.${basename(path)}.${randomUUID().slice(0, 8)}.new`);
  let file: number | null = null;
  try {
    const opened = openSync(temporary, 'wx', mode);
    file = opened;
    gathered(pieces, { write: (text) => writeAll(opened, Buffer.from(text)) });
    if (flush) fsyncSync(opened);
    closeSync(opened);
    file = null;
    moveFile(temporary, path);
  } catch (error) {
    if (file !== null) closeSync(file);
    removeFile(temporary);
    throw error;
  }
};

/** Takes a file away; whether it could be, or was not there. */
export const removeFile = (path: string): boolean => {
  try {
    rmSync(path, { force: true });
    return true;
  } catch {
    return false;
  }
};

/** What some systems say while another program, such as one that looks for viruses, has a file open for a moment. */
const passing: ReadonlySet<string> = new Set(['EPERM', 'EACCES', 'EBUSY']);
const mostTries = 5;

/**
 * Moves a file to another name, over what has that name. On a system that does not do that while somebody has the file
 * open it is tried again.
 *
 * @throws what the system says
 */
export const moveFile = (from: string, to: string, platform: NodeJS.Platform = process.platform): void => {
  for (let tries = 1; ; tries += 1) {
    try {
      renameSync(from, to);
      return;
    } catch (error) {
      const isPassing = passing.has((error as NodeJS.ErrnoException).code ?? '');
      if (platform !== 'win32' || !isPassing || tries === mostTries) throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20 * tries);
    }
  }
};

/** Deeper than any folder for what a program keeps. */
const mostLevels = 12;

/**
 * Makes a folder of the user's own with those above it, one by one: some places let the system's own way try for ever.
 *
 * @throws what the system says
 */
export const makeFolder = (folder: string, levels: number = mostLevels): void => {
  try {
    mkdirSync(folder, { mode: 0o700 });
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST') return;
    if (code !== 'ENOENT' || levels === 0 || dirname(folder) === folder) throw error;
    makeFolder(dirname(folder), levels - 1);
    mkdirSync(folder, { mode: 0o700 });
  }
};
