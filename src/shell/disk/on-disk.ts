import { existsSync, opendirSync, readdirSync, realpathSync, statSync } from 'node:fs';

// These are synchronous, since callers ask one after the other.

/** Whether anything lies at a path that can be reached. */
export const exists = (path: string): boolean => existsSync(path);

/** Whether a path is a folder that can be looked into. */
export const isFolder = (path: string): boolean => {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
};

/** Whether a path leads to a plain file, and to no pipe or device. */
export const isPlainFile = (path: string): boolean => {
  try {
    return statSync(path).isFile();
  } catch {
    return false;
  }
};

/** When a file was last saved; null where there is none. */
export const savedAt = (path: string): number | null => {
  try {
    return Math.floor(statSync(path).mtimeMs);
  } catch {
    return null;
  }
};

/** The file that a path leads to, links followed; the path itself where that cannot be told. */
export const behindLinks = (path: string): string => {
  try {
    return realpathSync(path);
  } catch {
    return path;
  }
};

/** Something in a folder. */
export interface FolderEntry {
  readonly name: string;
  readonly kind: 'folder' | 'file' | 'link' | 'other';
}

interface Dirent {
  readonly name: string;
  isDirectory(): boolean;
  isFile(): boolean;
  isSymbolicLink(): boolean;
}

const entryOf = (entry: Dirent): FolderEntry => ({
  name: entry.name,
  kind: entry.isDirectory() ? 'folder' : entry.isFile() ? 'file' : entry.isSymbolicLink() ? 'link' : 'other',
});

/**
 * What a folder holds.
 *
 * @throws what the system says
 */
export const entriesIn = (folder: string): FolderEntry[] =>
  readdirSync(folder, { withFileTypes: true }).map(entryOf);

/** What a folder holds; nothing where it is not there or may not be read. */
export const entriesIfAny = (folder: string): FolderEntry[] => {
  try {
    return entriesIn(folder);
  } catch {
    return [];
  }
};

/** What a folder holds; null where that is more than `most` or cannot be told. */
export const fewEntriesIn = (folder: string, most: number): FolderEntry[] | null => {
  try {
    const opened = opendirSync(folder);
    try {
      const found: FolderEntry[] = [];
      for (let entry = opened.readSync(); entry !== null; entry = opened.readSync()) {
        if (found.length === most) return null;
        found.push(entryOf(entry));
      }
      return found;
    } finally {
      opened.closeSync();
    }
  } catch {
    return null;
  }
};
