import type { Layout } from '../core/job.ts';
import { type Library, openLibrary } from './library.ts';

/**
 * Makes a function that opens the library of each set of rule folders once, so that the jobs of a call share it.
 *
 * @param ahead layouts that packs are prepared for ahead of the jobs: worth while where there are many jobs
 */
export const libraryCache = (ahead: readonly Layout[] = []): ((folders: readonly string[]) => Library) => {
  const open = new Map<string, Library>();
  return (folders) => {
    const key = folders.join('\n');
    const library = open.get(key) ?? openLibrary(folders, ahead);
    open.set(key, library);
    return library;
  };
};
