import { readFile } from 'node:fs/promises';
import type { Instant } from '../../src/core/job.ts';
import type { Worksheet } from '../../src/core/worksheet.ts';
import { judgeFile } from '../../src/shell/judge-file.ts';
import { libraryCache } from '../../src/shell/library-cache.ts';
import { projectRoot } from './run.ts';

/** A way to judge job files of the project that opens their packs once. */
export const sheetOpener = (): ((file: string, asOf: Instant) => Promise<Worksheet>) => {
  const libraries = libraryCache();
  return async (file, asOf) => {
    const io = {
      cwd: projectRoot,
      env: {},
      zone: 'UTC',
      now: () => asOf,
      stdout: { write: () => {}, isTerminal: false, columns: null },
      stderr: { write: () => {} },
      readStdin: async () => new Uint8Array(),
      readFile: (path: string) => readFile(path),
      isInteractive: false,
      openPrompter: () => {
        throw new Error('nobody is asked');
      },
    };
    const { sheet, problems } = await judgeFile(file, { rules: [], asOf: () => asOf }, io, libraries);
    if (sheet === null) throw new Error(`${file}: ${problems.map(({ message }) => message).join('; ')}`);
    return sheet;
  };
};
