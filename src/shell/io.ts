import { readFile } from 'node:fs/promises';
import { openPrompter, type Prompter } from './prompter.ts';

/** All that the program takes from and gives to its surroundings; tests pass their own. */
export interface Io {
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly now: () => number;
  /** The time zone of the machine, for jobs that neither name one nor have a shop file. */
  readonly zone: string;
  readonly stdout: {
    readonly write: (text: string) => void;
    readonly isTerminal: boolean;
    readonly columns: number | null;
  };
  readonly stderr: {
    readonly write: (text: string) => void;
    /** Whether somebody looks on; false where it is not said. */
    readonly isTerminal?: boolean;
  };
  readonly readStdin: () => Promise<Uint8Array>;
  readonly readFile: (path: string) => Promise<Uint8Array>;
  /** Whether somebody sits at both ends, so that questions make sense that nobody asked for. */
  readonly isInteractive: boolean;
  /** Begins a conversation on standard input and output; it must be closed. */
  readonly openPrompter: () => Prompter;
}

const readAll = async (stream: NodeJS.ReadStream): Promise<Uint8Array> => {
  const chunks: Uint8Array[] = [];
  for await (const chunk of stream) chunks.push(typeof chunk === 'string' ? Buffer.from(chunk) : chunk);
  return Buffer.concat(chunks);
};

/** The real surroundings of a process. */
export const realIo = (): Io => {
  // A reader that stops early (`| head`) closes the pipe; that is no fault of ours.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  const isInteractive = (): boolean => process.stdin.isTTY === true && process.stdout.isTTY === true;
  return {
    cwd: process.cwd(),
    env: process.env,
    now: () => Date.now(),
    // Few calls ask, and finding it out takes its time.
    get zone() {
      return Intl.DateTimeFormat().resolvedOptions().timeZone;
    },
    stdout: {
      write: (text) => void process.stdout.write(text),
      isTerminal: process.stdout.isTTY === true,
      columns: process.stdout.columns ?? null,
    },
    stderr: {
      write: (text) => void process.stderr.write(text),
      isTerminal: process.stderr.isTTY === true,
    },
    readStdin: () => readAll(process.stdin),
    readFile: (path) => readFile(path),
    get isInteractive() {
      return isInteractive();
    },
    openPrompter: () => openPrompter(process.stdin, process.stdout, isInteractive()),
  };
};
