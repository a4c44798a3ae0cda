import { type Library, openLibrary } from './library.ts';

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
