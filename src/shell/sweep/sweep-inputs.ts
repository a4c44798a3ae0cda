import { dirname, resolve } from 'node:path';
import { layouts } from '../../core/job.ts';
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

const bytesOf = (path: string): Uint8Array | string => {
  try {
    return readPlainFile(path);
  } catch (error) {
    return `unread ${(error as NodeJS.ErrnoException).code}`;
  }
};

/** The hash of every pack that a job could ask for. */
const packsKey = async (library: Library): Promise<string> => {
  const shelves = [...(await library.shelves()).values()].flat();
  return contentHash(...shelves.flatMap(({ id, version, path }) => [`${id}@${version}`, bytesOf(path)]));
};

/** Finds what holds for the jobs of a folder, each folder once. */
export const surroundingsOf = (
  rules: readonly string[],
  failOn: FailLevel | null,
  program: string,
  io: Io,
): ((file: string) => Promise<Around>) => {
  const libraries = libraryCache(layouts);
  const packsKeys = new Map<Library, Promise<string>>();
  const keyOf = (library: Library): Promise<string> => {
    const key = packsKeys.get(library) ?? packsKey(library);
    packsKeys.set(library, key);
    return key;
  };
  const look = async (folder: string): Promise<Around> => {
    const path = await findShopFile(folder);
    const bytes = path === null ? '' : bytesOf(path);
    const found = await shopFor(folder, io);
    const folders = [...rules.map((one) => resolve(io.cwd, one)), ...found.folders, shippedRules()];
    const library = libraries(folders);
    const level = failOn ?? found.shop?.failOn ?? 'hold';
    const key = contentHash(
      program,
      process.versions.tz ?? '',
      level,
      bytes,
      JSON.stringify(found.problems),
      await keyOf(library),
    );
    return { found, library, failOn: level, key: key.slice(0, 22) };
  };
  const known = new Map<string, Promise<Around>>();
  return (file) => {
    const folder = dirname(resolve(io.cwd, file));
    const around = known.get(folder) ?? look(folder);
    known.set(folder, around);
    return around;
  };
};
