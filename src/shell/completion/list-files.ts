import { join, resolve } from 'node:path';
import { clean } from '../../report/clean.ts';
import { fewEntriesIn, isFolder } from '../disk/on-disk.ts';
import type { Io } from '../io.ts';

/** Where a leading `~` leads. */
export const expandHome = (path: string, { env }: Pick<Io, 'env'>): string => {
  const home = env.HOME ?? env.USERPROFILE;
  return home !== undefined && /^~(?:[/\\]|$)/u.test(path) ? join(home, path.slice(1)) : path;
};

/** In a larger folder the shell is left to its own list, which it makes without starting a program. */
const most = 5000;

/**
 * YAML files that continue what is typed, and the folders beside them. Null where there are none or the folder is
 * too large: then the shell's own list is the better one.
 */
export const listFiles = async (typed: string, io: Pick<Io, 'cwd' | 'env'>): Promise<string[] | null> => {
  const cut =
    Math.max(typed.lastIndexOf('/'), process.platform === 'win32' ? typed.lastIndexOf('\\') : -1) + 1;
  const head = typed.slice(0, cut);
  const start = typed.slice(cut);
  const folder = resolve(io.cwd, expandHome(head, io));
  const files: string[] = [];
  const folders: string[] = [];
  for (const { name, kind } of fewEntriesIn(folder, most) ?? []) {
    if (!name.startsWith(start) || (start === '' && name.startsWith('.')) || name !== clean(name)) continue;
    const value = head + name;
    const inside = kind === 'link' ? isFolder(join(folder, name)) : kind === 'folder';
    if (inside) folders.push(value);
    else if (/\.ya?ml$/iu.test(name)) files.push(value);
  }
  return files.length > 0 ? [...files.sort(), ...folders.sort()] : null;
};
