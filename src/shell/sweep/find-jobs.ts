import { type Dirent, opendirSync } from 'node:fs';
import { basename, join, resolve, sep } from 'node:path';
import { glob, isDynamicPattern } from 'tinyglobby';
import { isFolder } from '../on-disk.ts';
import { shopFileName } from '../shop-file.ts';

/** The files of a sweep. */
export interface FoundJobs {
  /** As they are printed, in the order of their names, each once. */
  readonly files: readonly string[];
  /**
   * Those that somebody named, which are judged whatever they hold; others in folders may be no jobs. A folder that
   * cannot be looked into is one of them, so that it is told.
   */
  readonly named: ReadonlySet<string>;
}

const isYaml = (name: string): boolean => /\.ya?ml$/iu.test(name);

/** Folders that hold no jobs: hidden ones, and what package managers put there. */
const passedOver = (name: string): boolean => name.startsWith('.') || name === 'node_modules';

/** Names that are read at a time: of a folder with a hundred thousand files not all need be in memory twice. */
const atATime = 256;

/** What a folder holds, one after the other. */
function* entriesOf(folder: string): Generator<Dirent> {
  const entries = opendirSync(folder, { bufferSize: atATime });
  try {
    for (let entry = entries.readSync(); entry !== null; entry = entries.readSync()) yield entry;
  } finally {
    entries.closeSync();
  }
}

/** Every YAML file at or below a folder; links are followed to files and not to folders, which could lead in a circle. */
const walk = (folder: string, cwd: string, found: string[], refused: string[]): void => {
  const below: string[] = [];
  const before = folder === '.' ? '' : join(folder, sep);
  try {
    for (const entry of entriesOf(resolve(cwd, folder))) {
      const { name } = entry;
      // Joined as a list, the two become one string; added, V8 keeps both of them, and a third for the sum.
      const path = [before, name].join('');
      if (entry.isDirectory()) {
        if (!passedOver(name)) below.push(path);
      } else if (isYaml(name) && !name.startsWith('.') && name !== shopFileName) {
        if (entry.isFile() || (entry.isSymbolicLink() && !isFolder(resolve(cwd, path)))) found.push(path);
      }
    }
  } catch {
    refused.push(folder);
  }
  for (const path of below) walk(path, cwd, found, refused);
};

/** In the order of their names, each once. */
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

/** The paths of a list: apart by line ends, or by zero bytes where it has any. */
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
  const take = (name: string): boolean => {
    if (!isFolder(resolve(cwd, name))) return false;
    walk(name.replace(/(?<=.)\/+$/u, ''), cwd, below, named);
    return true;
  };
  for (const name of names) {
    if (take(name)) continue;
    const matches = isDynamicPattern(name)
      ? await glob([name], { cwd, onlyFiles: true, expandDirectories: false })
      : [];
    // A name with brackets may be a file of that name; what is neither is told as missing.
    if (matches.length === 0) named.push(name);
    for (const match of matches) if (basename(match) !== shopFileName) below.push(match);
  }
  for (const name of listed) if (!take(name)) named.push(name);
  for (const name of named) below.push(name);
  return { files: inOrder(below), named: new Set(named) };
};

/** Whether a text looks like a job file, even one with mistakes; packs and other YAML do not. */
export const looksLikeJob = (text: string): boolean =>
  /^["']?(?:worksheet|job|snapshots|vehicle)["']?\s*:/mu.test(text) && !/^["']?pack["']?\s*:/mu.test(text);
