import { dirname, resolve } from 'node:path';
import type { FailLevel } from '../../core/level.ts';
import type { Io } from '../io.ts';
import { type Library, openLibrary } from '../library.ts';
import { shippedRules } from '../package-folder.ts';
import { type FoundShop, findShopFile, shopFor } from '../shop-file.ts';
import { contentHash } from './hash.ts';
import { readPlainFile } from './read-file.ts';

/** What the jobs of one folder are judged by, besides their own text and the time. */
export interface SweepInputs {
  readonly found: FoundShop;
  readonly library: Library;
  readonly failOn: FailLevel;
  /** A hash of all of it: program, zone database, fail level, shop file, rule packs. */
  readonly key: string;
}

export interface SweepInputsOptions {
  /** Rule folders from the command line. */
  readonly rules: readonly string[];
  /** The fail level from the command line; null for that of the shop file. */
  readonly failOn: FailLevel | null;
  /** Version and build of the program. */
  readonly program: string;
  readonly io: Io;
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

/**
 * Finds the inputs of files. Those of a folder are found once, and the library of a set of rule folders is opened and
 * hashed once; both are kept as long as the finder.
 */
export const sweepInputsFinder = ({
  rules,
  failOn,
  program,
  io,
}: SweepInputsOptions): ((file: string) => Promise<SweepInputs>) => {
  const libraries = new Map<string, { readonly library: Library; readonly key: Promise<string> }>();
  const inputsByFolder = new Map<string, Promise<SweepInputs>>();

  const libraryOf = (folders: readonly string[]) => {
    const name = folders.join('\n');
    const known = libraries.get(name);
    if (known) return known;
    const library = openLibrary(folders);
    const opened = { library, key: packsKey(library) };
    libraries.set(name, opened);
    return opened;
  };
  const find = async (folder: string): Promise<SweepInputs> => {
    const path = await findShopFile(folder);
    const bytes = path === null ? '' : bytesOf(path);
    const found = await shopFor(folder, io);
    const ruleFolders = [...rules.map((one) => resolve(io.cwd, one)), ...found.folders, shippedRules()];
    const { library, key: packs } = libraryOf(ruleFolders);
    const level = failOn ?? found.shop?.failOn ?? 'hold';
    const zones = process.versions.tz ?? '';
    const key = contentHash(program, zones, level, bytes, JSON.stringify(found.problems), await packs);
    return { found, library, failOn: level, key: key.slice(0, 22) };
  };
  return (file) => {
    const folder = dirname(resolve(io.cwd, file));
    const inputs = inputsByFolder.get(folder) ?? find(folder);
    inputsByFolder.set(folder, inputs);
    return inputs;
  };
};
