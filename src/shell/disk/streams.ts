import { fstatSync } from 'node:fs';
import { Writable } from 'node:stream';
import { writeAll } from './write-whole.ts';

/** Where text goes that somebody is to read: standard output or error. */
export interface Outlet {
  /** Never throws: what becomes of it is told by `failure` and `isLeft`. */
  readonly write: (text: string) => void;
  /** Why something did not get where it was to go, as the system says it; null where all did. */
  readonly failure: () => string | null;
  /** Whether the reader has gone away, as `head` does when it has seen enough. */
  readonly isLeft: () => boolean;
}

const pauseFor = 2;

/** Writes to a pipe that may be full for a moment and says so in place of waiting. */
const writeWaiting = (file: number, bytes: Uint8Array): void => {
  for (let left = bytes; ; ) {
    try {
      writeAll(file, left);
      return;
    } catch (error) {
      if (!(error instanceof Error) || (error as NodeJS.ErrnoException).code !== 'EAGAIN') throw error;
      const { written = 0 } = error as { readonly written?: number };
      left = left.subarray(written);
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, pauseFor);
    }
  }
};

/** One of the two streams of a process; what is written to it has left the process when the call returns. */
export const openOutlet = (file: 1 | 2, stream: NodeJS.WriteStream): Outlet => {
  let failure: string | null = null;
  let left = false;
  const note = (error: NodeJS.ErrnoException): void => {
    if (error.code === 'EPIPE') left = true;
    else failure ??= error.code ?? error.message;
  };
  // A terminal has an encoding of its own on some systems, which only its stream knows.
  const isTerminal = stream.isTTY === true;
  if (isTerminal) stream.on('error', note);
  return {
    write: (text) => {
      if (left || failure !== null) return;
      try {
        if (isTerminal) stream.write(text);
        else writeWaiting(file, Buffer.from(text));
      } catch (error) {
        note(error as NodeJS.ErrnoException);
      }
    },
    failure: () => failure,
    isLeft: () => left,
  };
};

/** Whether two open files lead to the same place, as with `2>&1`. */
export const isSameStream = (one: number, other: number): boolean => {
  try {
    const [a, b] = [one, other].map((file) => fstatSync(file, { bigint: true }));
    return a !== undefined && b !== undefined && a.ino === b.ino && a.dev === b.dev;
  } catch {
    return false;
  }
};

/** An outlet for what writes to streams only. */
export const outletAsStream = ({ write }: Pick<Outlet, 'write'>): Writable =>
  new Writable({
    decodeStrings: false,
    write: (chunk: string | Uint8Array, _, done) => {
      write(typeof chunk === 'string' ? chunk : new TextDecoder().decode(chunk));
      done();
    },
  });
