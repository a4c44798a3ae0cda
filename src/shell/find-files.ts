import { basename, resolve } from 'node:path';
import { exists } from './disk/on-disk.ts';
import { isPattern, matching } from './file-patterns.ts';
import { shopFileName } from './shop-file.ts';

/**
 * The files that arguments name: each as it is if it exists, else as a pattern. A pattern that matches nothing
 * stays as it is, so that it is reported as missing. The shop file among many is no job and is passed over.
 */
export const findFiles = async (names: readonly string[], cwd: string): Promise<string[]> => {
  const found: string[] = [];
  for (const name of names) {
    if (name === '-' || exists(resolve(cwd, name)) || !(await isPattern(name))) {
      found.push(name);
      continue;
    }
    const matches = await matching(name, cwd);
    found.push(...(matches.length > 0 ? matches : [name]));
  }
  const once = [...new Set(found)];
  return once.length > 1 ? once.filter((name) => basename(name) !== shopFileName) : once;
};
