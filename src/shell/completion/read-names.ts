import { dirname, resolve } from 'node:path';
import { isPlainFile } from '../disk/on-disk.ts';
import type { Io } from '../io.ts';
import { newestPacks } from '../library.ts';
import { libraryCache } from '../library-cache.ts';
import { type OpenJob, openJobFile } from '../open-job.ts';
import { shippedRules } from '../package-folder.ts';
import { shopFor } from '../shop-file.ts';
import { expandHome } from './list-files.ts';
import type { Names } from './names.ts';

/** Names out of jobs, shop files and packs on disk, found as `check` finds them. */
export const readNames = (io: Io): Names => {
  const libraries = libraryCache();
  const libraryFor = async (folder: string, rules: readonly string[]) => {
    const { folders } = await shopFor(folder, io);
    return libraries([...rules.map((rule) => resolve(io.cwd, rule)), ...folders, shippedRules()]);
  };
  const open = async (file: string, rules: readonly string[]): Promise<OpenJob | null> => {
    const path = resolve(io.cwd, expandHome(file, io));
    // A pipe would hold the prompt up, and take from whoever else reads it.
    if (!isPlainFile(path)) return null;
    const opened = await openJobFile(
      path,
      rules.map((rule) => expandHome(rule, io)),
      io,
      libraries,
    );
    return 'problems' in opened ? null : opened;
  };
  return {
    packsOf: async (file, rules) => {
      const packs = (await open(file, rules))?.read.prepared.packs ?? [];
      if (packs.length > 0) return packs;
      const path = resolve(io.cwd, expandHome(file, io));
      return newestPacks(
        await libraryFor(
          dirname(path),
          rules.map((rule) => expandHome(rule, io)),
        ),
      );
    },
    snapshotsOf: async (file, rules) => {
      const snapshots = (await open(file, rules))?.read.job?.snapshots ?? [];
      return snapshots.map(({ id }) => id).reverse();
    },
    packNames: async (rules) => {
      const library = await libraryFor(
        io.cwd,
        rules.map((rule) => expandHome(rule, io)),
      );
      return [...(await library.shelves())].map(([id, shelves]) => ({
        id,
        versions: shelves.map(({ version }) => version),
      }));
    },
  };
};
