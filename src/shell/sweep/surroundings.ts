import { readdirSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import type { FailLevel } from '../../core/level.ts';
import type { Io } from '../io.ts';
import type { Library } from '../library.ts';
import { libraryCache } from '../library-cache.ts';
import { shippedRules } from '../package-folder.ts';
import { type FoundShop, findShopFile, shopFor } from '../shop-file.ts';
import { contentHash } from './hash.ts';
import { readPlainFile } from './read-file.ts';

/** What holds for the jobs of one folder. */
export interface Around {
  readonly found: FoundShop;
  readonly library: Library;
  readonly failOn: FailLevel;
  /** Of all that a judgement hangs on beside the job and the clock: program, zone database, shop file, rule packs. */
  readonly key: string;
}

const listed = (folder: string): string[] => {
  try {
    return readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .flatMap(({ name }) =>
        readdirSync(join(folder, name))
          .filter((file) => file.endsWith('.yaml'))
          .map((file) => join(name, file)),
      )
      .sort();
  } catch (error) {
    return [`unread ${(error as NodeJS.ErrnoException).code}`];
  }
};

const bytesOf = (path: string): Uint8Array | string => {
  try {
    return readPlainFile(path);
  } catch (error) {
    return `unread ${(error as NodeJS.ErrnoException).code}`;
  }
};

/** The hash of every rule pack in a folder, with its name. */
const folderKey = (folder: string): string =>
  contentHash(...listed(folder).flatMap((name) => [name, bytesOf(join(folder, name))]));

/** Finds what holds for the jobs of a folder, each folder once. */
export const surroundingsOf = (
  rules: readonly string[],
  failOn: FailLevel | null,
  program: string,
  io: Io,
): ((file: string) => Promise<Around>) => {
  const libraries = libraryCache();
  const folderKeys = new Map<string, string>();
  const keyOf = (folder: string): string => {
    const key = folderKeys.get(folder) ?? folderKey(folder);
    folderKeys.set(folder, key);
    return key;
  };
  const look = async (folder: string): Promise<Around> => {
    const path = await findShopFile(folder);
    const bytes = path === null ? '' : bytesOf(path);
    const found = await shopFor(folder, io);
    const folders = [...rules.map((one) => resolve(io.cwd, one)), ...found.folders, shippedRules()];
    const level = failOn ?? found.shop?.failOn ?? 'hold';
    const key = contentHash(
      program,
      process.versions.tz ?? '',
      level,
      bytes,
      JSON.stringify(found.problems),
      ...folders.map(keyOf),
    );
    return { found, library: libraries(folders), failOn: level, key: key.slice(0, 22) };
  };
  const known = new Map<string, Promise<Around>>();
  return (file) => {
    const folder = dirname(resolve(io.cwd, file));
    const around = known.get(folder) ?? look(folder);
    known.set(folder, around);
    return around;
  };
};
