import { basename, dirname, join, resolve } from 'node:path';
import type { Command } from 'commander';
import { clean } from '../../report/clean.ts';
import { NotPlain } from '../disk/read-plain.ts';
import { moveFile } from '../disk/write-whole.ts';
import type { Shell } from '../shell.ts';
import { shownPath } from '../shown-path.ts';
import { type EarlierSweep, NotASweep, openEarlier } from './earlier.ts';

/** An earlier sweep that saw nothing. */
const nothing: EarlierSweep = {
  count: 0,
  byFile: () => null,
  byJob: () => [],
  nameOf: () => '',
  get: () => {
    throw new Error('there is no line');
  },
  close: () => {},
};

const reasonOf = (error: unknown): string => {
  if (error instanceof NotASweep)
    return error.line === null ? error.message : `line ${error.line}: ${error.message}`;
  if (error instanceof NotPlain) return error.message;
  return `it cannot be read (${(error as NodeJS.ErrnoException).code ?? 'unknown fault'})`;
};

/** Where a remembered night goes that cannot be used, beside it and hidden as it is. */
const asideOf = (path: string): string =>
  join(dirname(path), basename(path).replace(/\.ndjson$/u, '.damaged.ndjson'));

/** Moves a remembered night aside that cannot be used: the sweep is made all the same, and tonight's takes its place. */
const moveAside = (path: string, error: unknown, { io }: Shell): void => {
  const aside = asideOf(path);
  let became = `was moved aside to ${shownPath(aside, io.cwd)}`;
  try {
    moveFile(path, aside);
  } catch {
    became = 'is left as it is';
  }
  io.stderr.write(
    `cornerwise: ${clean(shownPath(path, io.cwd))} cannot be used: ${clean(reasonOf(error))}; it ${clean(became)}, and every job counts as new\n`,
  );
};

/**
 * Opens what an earlier sweep wrote; where there is none yet it saw nothing.
 *
 * @param isMemory whether it is what `--remember` kept, which is no reason to have no sweep tonight. A file that the user
 * names and that cannot be read ends the call
 */
export const openBefore = (file: string, isMemory: boolean, shell: Shell, command: Command): EarlierSweep => {
  const { io } = shell;
  const path = resolve(io.cwd, file);
  try {
    return openEarlier(path, isMemory);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') {
      io.stderr.write(
        `cornerwise: ${clean(shownPath(path, io.cwd))} is not there yet, so every job counts as new\n`,
      );
    } else if (isMemory) moveAside(path, error, shell);
    else {
      const at = error instanceof NotASweep && error.line !== null ? `:${error.line}` : '';
      const reason = error instanceof NotASweep ? error.message : reasonOf(error);
      command.error(
        `error: ${shownPath(path, io.cwd)}${at}: ${reason}; name another file, or delete this one`,
      );
    }
    return nothing;
  }
};
