import { basename, join, resolve } from 'node:path';
import { entriesIn, exists, isFolder } from '../disk/on-disk.ts';
import { isPattern, matching } from '../file-patterns.ts';
import { shopFileName } from '../shop-file.ts';

/** The files of a sweep. */
export interface FoundJobs {
  /** As they are printed, in the order of their names, each once. */
  readonly files: readonly string[];
  /**
   * Files that the user named, which are judged whatever they hold; others in folders may be no jobs. A folder that
   * cannot be read is among them, so that its row says so.
   */
  readonly named: ReadonlySet<string>;
  /** Arguments that lead to nothing. */
  readonly missing: readonly string[];
  /** Folders that cannot be read: what jobs they hold nobody knows. */
  readonly refused: readonly string[];
}

const isYaml = (name: string): boolean => /\.ya?ml$/iu.test(name);

/** Whether a folder holds no jobs: a hidden one, or one of a package manager. */
const passedOver = (name: string): boolean => name.startsWith('.') || name === 'node_modules';

/**
 * Finds every YAML file at or below a folder. Links to files are followed; links to folders are not, since they could
 * lead in a circle.
 */
const walk = (folder: string, cwd: string, found: string[], refused: string[]): void => {
  const below: string[] = [];
  try {
    for (const { name, kind } of entriesIn(resolve(cwd, folder))) {
      const path = join(folder, name);
      if (kind === 'folder') {
        if (!passedOver(name)) below.push(path);
      } else if (isYaml(name) && !name.startsWith('.') && name !== shopFileName) {
        if (kind === 'file' || (kind === 'link' && !isFolder(resolve(cwd, path)))) found.push(path);
      }
    }
  } catch {
    refused.push(folder);
  }
  for (const path of below) walk(path, cwd, found, refused);
};

/** Sorts files by name and drops repeated ones, in place. */
const inOrder = (files: string[]): readonly string[] => {
  files.sort();
  let kept = 0;
  for (const file of files) {
    if (kept > 0 && files[kept - 1] === file) continue;
    files[kept] = file;
    kept += 1;
  }
  files.length = kept;
  return files;
};

/** Splits a list into paths: at zero bytes where it has any, else at line ends. */
export const readList = (text: string): string[] =>
  text.split(text.includes('\0') ? '\0' : /\r?\n/u).filter((path) => path.trim() !== '');

/**
 * The job files that arguments name: files as they are, folders with all below them, patterns.
 *
 * @param names paths and patterns, without `-`
 * @param listed paths that came from a list, in which nothing is a pattern
 */
export const findJobs = async (
  names: readonly string[],
  listed: readonly string[],
  cwd: string,
): Promise<FoundJobs> => {
  const below: string[] = [];
  const named: string[] = [];
  const missing: string[] = [];
  const refused: string[] = [];
  const take = (name: string): boolean => {
    if (!isFolder(resolve(cwd, name))) return false;
    walk(name.replace(/(?<=.)\/+$/u, ''), cwd, below, refused);
    return true;
  };
  for (const name of names) {
    if (take(name)) continue;
    const matches = (await isPattern(name)) ? await matching(name, cwd) : [];
    // A name with brackets may be a file of that name.
    if (matches.length === 0) (exists(resolve(cwd, name)) ? named : missing).push(name);
    for (const match of matches) if (basename(match) !== shopFileName) below.push(match);
  }
  for (const name of listed) if (!take(name)) named.push(name);
  // The shop file among the files that a shell found for a pattern is no job.
  const own = names.length > 1 ? named.filter((name) => basename(name) !== shopFileName) : named;
  for (const name of [...own, ...refused]) below.push(name);
  return { files: inOrder(below), named: new Set([...own, ...refused]), missing, refused };
};

/** Whether a text looks like a job file, even one with mistakes; packs and other YAML do not. */
export const looksLikeJob = (text: string): boolean =>
  /^["']?(?:worksheet|job|snapshots|vehicle)["']?\s*:/mu.test(text) && !/^["']?pack["']?\s*:/mu.test(text);
