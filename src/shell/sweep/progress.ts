import type { Io } from '../io.ts';

/** Tells how far it is, where somebody looks on. */
export interface Progress {
  readonly at: (done: number) => void;
  /** Leaves the line as if nothing had been there. */
  readonly end: () => void;
}

const often = 100;

/** A line that is written over and over on a terminal; nothing elsewhere. */
export const progress = (of: number, { stderr, env }: Io): Progress => {
  if (stderr.isTerminal !== true || env.TERM === 'dumb') return { at: () => {}, end: () => {} };
  let last = performance.now();
  let shown = false;
  return {
    at: (done) => {
      const now = performance.now();
      // What takes no time needs no telling.
      if (now - last < often) return;
      last = now;
      shown = true;
      stderr.write(`\rjudged ${done} of ${of} files; Ctrl-C ends with what was done`);
    },
    end: () => {
      if (shown) stderr.write('\r\u001b[K');
    },
  };
};
