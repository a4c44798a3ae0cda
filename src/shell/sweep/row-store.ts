import { closeSync, mkdtempSync, openSync, readSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Texts by number, of which only some are in memory. */
export interface TextStore {
  readonly put: (index: number, text: string) => void;
  readonly get: (index: number) => string | null;
  /** Where those lie that are not in memory; null while all are. */
  readonly folder: () => string | null;
  /** Gives back what it took. */
  readonly close: () => void;
}

const chunkSize = 1 << 20;

interface Chunk {
  /** Null once it lies on the disk. */
  bytes: Buffer | null;
  used: number;
  /** Where it lies there. */
  at: number;
}

/**
 * Keeps texts in chunks of a megabyte; when there are more than `mostInMemory` of them the full ones go to a file of its
 * own in the system's temporary folder.
 *
 * @param count how many texts there can be
 */
export const textStore = (count: number, mostInMemory = 8): TextStore => {
  const chunkOf = new Uint32Array(count);
  const startOf = new Uint32Array(count);
  // One more than the length, so that nought means nothing.
  const sizeOf = new Uint32Array(count);
  const chunks: Chunk[] = [];
  let folder: string | null = null;
  let file: number | null = null;
  let written = 0;
  let firstInMemory = 0;
  // What was written away is filled anew: memory that is let go of here would be missed by nobody for long.
  let spare: Buffer | null = null;

  const spill = (chunk: Chunk): void => {
    if (chunk.bytes === null) return;
    if (file === null) {
      folder = mkdtempSync(join(tmpdir(), 'cornerwise-'));
      file = openSync(join(folder, 'rows'), 'w+');
    }
    for (let done = 0; done < chunk.used; ) {
      done += writeSync(file, chunk.bytes, done, chunk.used - done, written + done);
    }
    chunk.at = written;
    if (chunk.bytes.length === chunkSize) spare = chunk.bytes;
    chunk.bytes = null;
    written += chunk.used;
  };

  const roomFor = (size: number): Chunk => {
    const last = chunks.at(-1);
    if (last?.bytes && last.used + size <= last.bytes.length) return last;
    while (chunks.length - firstInMemory >= mostInMemory) {
      const oldest = chunks[firstInMemory];
      if (oldest) spill(oldest);
      firstInMemory += 1;
    }
    const bytes =
      size <= chunkSize && spare !== null ? spare : Buffer.allocUnsafeSlow(Math.max(chunkSize, size));
    if (bytes === spare) spare = null;
    const chunk: Chunk = { bytes, used: 0, at: 0 };
    chunks.push(chunk);
    return chunk;
  };

  return {
    put: (index, text) => {
      const size = Buffer.byteLength(text);
      const chunk = roomFor(size);
      chunk.bytes?.write(text, chunk.used);
      chunkOf[index] = chunks.length - 1;
      startOf[index] = chunk.used;
      sizeOf[index] = size + 1;
      chunk.used += size;
    },
    get: (index) => {
      const size = (sizeOf[index] ?? 0) - 1;
      const chunk = chunks[chunkOf[index] ?? 0];
      const start = startOf[index] ?? 0;
      if (size < 0 || chunk === undefined) return null;
      if (chunk.bytes) return chunk.bytes.toString('utf8', start, start + size);
      if (file === null) return null;
      const bytes = Buffer.allocUnsafe(size);
      for (let done = 0; done < size; ) {
        const read = readSync(file, bytes, done, size - done, chunk.at + start + done);
        if (read === 0) return null;
        done += read;
      }
      return bytes.toString('utf8');
    },
    folder: () => folder,
    close: () => {
      if (file !== null) closeSync(file);
      if (folder !== null) rmSync(folder, { recursive: true, force: true });
      file = null;
      folder = null;
    },
  };
};
