import { largest } from '../input/yaml/decode.ts';
import { readPlain } from './disk/read-plain.ts';
import { readStream, streamUpTo } from './disk/read-stdin.ts';
import { isSameStream, openOutlet, outletAsStream } from './disk/streams.ts';
import { openPrompter, type Prompter } from './prompter.ts';

/** Where text goes that somebody is to read. */
export interface IoOutlet {
  /** Never throws. */
  readonly write: (text: string) => void;
  /** Why something did not get where it was to go; null, or not there, where all did. */
  readonly failure?: () => string | null;
}

/** All that the program takes from and gives to its surroundings; tests pass their own. */
export interface Io {
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly now: () => number;
  /** The time zone of the machine, for jobs that neither name one nor have a shop file. */
  readonly zone: string;
  readonly stdout: IoOutlet & {
    readonly isTerminal: boolean;
    readonly columns: number | null;
    /** Whether the reader has gone away, so that printing more is no use; false where it is not said. */
    readonly isLeft?: () => boolean;
  };
  readonly stderr: IoOutlet & {
    /** Whether somebody looks on; false where it is not said. */
    readonly isTerminal?: boolean;
  };
  /**
   * All of standard input.
   *
   * @throws TooLarge above so many bytes
   */
  readonly readStdin: (limit: number) => Promise<Uint8Array>;
  /**
   * A plain file as it is now.
   *
   * @throws NotPlain, TooLarge, or what the system says
   */
  readonly readFile: (path: string) => Promise<Uint8Array>;
  /** Whether somebody sits at both ends, so that questions make sense that nobody asked for. */
  readonly isInteractive: boolean;
  /** Begins a conversation on standard input and output; it must be closed. */
  readonly openPrompter: () => Prompter;
}

/** The real surroundings of a process. */
export const realIo = (): Io => {
  const stdout = openOutlet(1, process.stdout);
  const stderr = openOutlet(2, process.stderr);
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
      ...stdout,
      isTerminal: process.stdout.isTTY === true,
      columns: process.stdout.columns ?? null,
    },
    stderr: {
      write: stderr.write,
      // A reader of both that left early has seen enough; one of this alone has missed something.
      failure: () => stderr.failure() ?? (stderr.isLeft() && !isSameStream(1, 2) ? 'nobody reads it' : null),
      isTerminal: process.stderr.isTTY === true,
    },
    readStdin: (limit) => readStream(process.stdin, limit),
    readFile: async (path) => readPlain(path),
    get isInteractive() {
      return isInteractive();
    },
    openPrompter: () =>
      isInteractive()
        ? openPrompter(process.stdin, process.stdout, true)
        : openPrompter(streamUpTo(process.stdin, largest), outletAsStream(stdout), false),
  };
};
