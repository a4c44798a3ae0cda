import { existsSync, statSync } from 'node:fs';

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
