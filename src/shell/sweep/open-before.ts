import { resolve } from 'node:path';
import type { Command } from 'commander';
import { clean } from '../../report/clean.ts';
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

/** Opens what an earlier sweep wrote; where there is none yet it saw nothing. Ends the call where it cannot be read. */
export const openBefore = (file: string, { io }: Shell, command: Command): EarlierSweep => {
  const path = resolve(io.cwd, file);
  try {
    return openEarlier(path);
  } catch (error) {
    if (error instanceof NotASweep)
      command.error(
        `error: ${shownPath(path, io.cwd)}:${error.line}: ${error.message}; name another file, or delete this one`,
      );
    const { code } = error as NodeJS.ErrnoException;
    if (code !== 'ENOENT') command.error(`error: ${file} cannot be read (${code ?? 'unknown fault'})`);
    io.stderr.write(
      `cornerwise: ${clean(shownPath(path, io.cwd))} is not there yet, so every job counts as new\n`,
    );
    return nothing;
  }
};
