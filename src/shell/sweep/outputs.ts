import { closeSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
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
 * Writes a file beside itself and moves it over, so that readers find the old file or the whole new one.
 *
 * @throws what the system says; the file is then as it was
 */
export const writeWhole = (path: string, pieces: Iterable<string>): void => {
  const temporary = join(dirname(path), `.${basename(path)}.${process.pid}.new`);
  let file: number | null = null;
  try {
    const opened = openSync(temporary, 'w');
    file = opened;
    gathered(pieces, {
      write: (text) => {
        const bytes = Buffer.from(text);
        for (let done = 0; done < bytes.length; ) done += writeSync(opened, bytes, done);
      },
    });
    closeSync(opened);
    file = null;
    renameSync(temporary, path);
  } catch (error) {
    if (file !== null) closeSync(file);
    rmSync(temporary, { force: true });
    throw error;
  }
};
