import { dirname, join, resolve, sep } from 'node:path';
import { isDynamicPattern } from 'tinyglobby';
import type { Shard } from './shard.ts';

/** The part of a pattern that is none, as a folder. */
const fixedPart = (name: string): string => {
  const parts = name.split('/');
  const first = parts.findIndex((part) => isDynamicPattern(part));
  return first < 0 ? name : parts.slice(0, first).join('/') || (name.startsWith('/') ? '/' : '.');
};

const common = (a: string, b: string): string => {
  let folder = a;
  while (folder !== b && !b.startsWith(folder.endsWith(sep) ? folder : folder + sep))
    folder = dirname(folder);
  return folder;
};

/**
 * Where a sweep of some paths keeps what it saw: in the folder that holds all of them, hidden; one file for each shard.
 *
 * @param isFolder whether a path is a folder
 */
export const memoryPath = (
  names: readonly string[],
  shard: Shard | null,
  cwd: string,
  isFolder: (path: string) => boolean,
): string => {
  const folders = names.map((name) => {
    const path = resolve(cwd, fixedPart(name));
    return isFolder(path) ? path : dirname(path);
  });
  const folder = folders.reduce((all, one) => common(all, one), folders[0] ?? cwd);
  const part = shard === null ? '' : `-${shard.number}-of-${shard.of}`;
  return join(folder, `.cornerwise-sweep${part}.ndjson`);
};
