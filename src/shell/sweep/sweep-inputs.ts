import { resolve } from 'node:path';
import { layouts } from '../../core/job.ts';
import type { FailLevel } from '../../core/level.ts';
import type { Problem } from '../../input/problem.ts';
import { readPlain } from '../disk/read-plain.ts';
import type { Io } from '../io.ts';
import type { Library } from '../library.ts';
import { libraryCache } from '../library-cache.ts';
import { shippedRules } from '../package-folder.ts';
import { searchPacks } from '../resolve-packs.ts';
import { type FoundShop, findShopFile, shopFor } from '../shop-file.ts';
import { contentHash } from './hash.ts';

/** What the jobs of one folder are judged by, besides their own text and the time. */
export interface SweepInputs {
  readonly found: FoundShop;
  readonly library: Library;
  readonly failOn: FailLevel;
  /** What is wrong with the shop file or the packs that it names: no job that it holds for can be trusted then. */
  readonly problems: readonly Problem[];
  /** A hash of all of it: program, zone database, zone of the shop or machine, fail level, shop file, rule packs. */
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
    return readPlain(path);
  } catch (error) {
    return `unread ${(error as NodeJS.ErrnoException).code}`;
  }
};

/** What is wrong with what a shop file says for all jobs, and with the packs that it names. */
const shopProblems = async (found: FoundShop, library: Library): Promise<readonly Problem[]> => {
  if (found.problems.length > 0) return found.problems;
  const resolved = await searchPacks(found.packs, library);
  return [...found.locate(resolved.flaws), ...resolved.problems];
};

/** The hash of every pack that a job could ask for. */
const packsKey = async (library: Library): Promise<string> => {
  const shelves = [...(await library.shelves()).values()].flat();
  return contentHash(...shelves.flatMap(({ id, version, path }) => [`${id}@${version}`, bytesOf(path)]));
};

/**
 * Finds the inputs of folders with jobs, by the folder. A library is opened and hashed once for each set of rule
 * folders.
 *
 * @param folders absolute paths
 */
export const sweepInputsOf = async (
  folders: Iterable<string>,
  { rules, failOn, program, io }: SweepInputsOptions,
): Promise<ReadonlyMap<string, SweepInputs>> => {
  const libraries = libraryCache(layouts);
  const packsKeys = new Map<Library, string>();
  const inputs = new Map<string, SweepInputs>();
  for (const folder of folders) {
    const path = findShopFile(folder);
    const bytes = path === null ? '' : bytesOf(path);
    const found = await shopFor(folder, io);
    const library = libraries([
      ...rules.map((one) => resolve(io.cwd, one)),
      ...found.folders,
      shippedRules(),
    ]);
    const packs = packsKeys.get(library) ?? (await packsKey(library));
    packsKeys.set(library, packs);
    const level = failOn ?? found.shop?.failOn ?? 'hold';
    const zones = process.versions.tz ?? '';
    const zone = found.shop?.zone ?? io.zone;
    const key = contentHash(program, zones, zone, level, bytes, JSON.stringify(found.problems), packs);
    const problems = await shopProblems(found, library);
    inputs.set(folder, { found, library, failOn: level, problems, key: key.slice(0, 22) });
  }
  return inputs;
};
