import { basename, dirname, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { type Library, openLibrary } from './library.ts';

/** The top of the package; the bundle lies one folder below it, and the sources two. */
const packageFolder = (): string => {
  const here = dirname(fileURLToPath(import.meta.url));
  return basename(here) === 'dist' ? resolve(here, '..') : resolve(here, '../..');
};

/** The folder of the packs that ship. */
export const shippedRules = (): string => resolve(packageFolder(), 'rules');

/** The folder of the schemas that the build writes, for editors. */
export const shippedSchemas = (): string => resolve(packageFolder(), 'dist/schemas');

/** The script of the threads of a sweep, which the build writes. */
export const workerScript = (): URL => pathToFileURL(resolve(packageFolder(), 'dist/sweep-worker.js'));

/** Opens libraries once a set of folders, since many jobs share one. */
export const libraryCache = (): ((folders: readonly string[]) => Library) => {
  const open = new Map<string, Library>();
  return (folders) => {
    const key = folders.join('\n');
    const library = open.get(key) ?? openLibrary(folders);
    open.set(key, library);
    return library;
  };
};
