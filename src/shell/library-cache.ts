import { type Library, openLibrary } from './library.ts';

/** Makes a function that opens the library of each set of rule folders once, so that the jobs of a call share it. */
export const libraryCache = (): ((folders: readonly string[]) => Library) => {
  const open = new Map<string, Library>();
  return (folders) => {
    const key = folders.join('\n');
    const library = open.get(key) ?? openLibrary(folders);
    open.set(key, library);
    return library;
  };
};
