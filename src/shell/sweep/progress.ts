import type { Io } from '../io.ts';

/** Shows how far a sweep is, on a terminal. */
export interface Progress {
  readonly at: (done: number) => void;
  /** Clears the line. */
  readonly end: () => void;
}

/** The least time between two updates, in milliseconds. */
const updateEvery = 100;

/** Rewrites one line on a terminal, and writes nothing elsewhere. */
export const progress = (of: number, { stderr, env }: Io): Progress => {
  if (stderr.isTerminal !== true || env.TERM === 'dumb') return { at: () => {}, end: () => {} };
  let last = performance.now();
  let shown = false;
  return {
    at: (done) => {
      const now = performance.now();
      // A short sweep shows nothing.
      if (now - last < updateEvery) return;
      last = now;
      shown = true;
      stderr.write(`\rjudged ${done} of ${of} files; Ctrl-C ends with what was done`);
    },
    end: () => {
      if (shown) stderr.write('\r\u001b[K');
    },
  };
};
