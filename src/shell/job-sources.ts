import { createHash } from 'node:crypto';
import { basename, dirname, join, resolve } from 'node:path';
import { behindLinks, entriesIfAny } from './disk/on-disk.ts';
import { readPlain } from './disk/read-plain.ts';
import { isPattern, patternParts } from './file-patterns.ts';
import { findFiles } from './find-files.ts';
import type { Io } from './io.ts';
import { findShopFile, shopFileName, shopFor } from './shop-file.ts';
import type { Sources } from './watch.ts';

/** The files of a call and all that their judgement hangs on, as they were at one moment. */
export interface JobSources extends Sources {
  readonly files: readonly string[];
  /** Reads the job and shop files as they were then, so that what is judged is what was compared. */
  readonly io: Io;
}

type Folders = Map<string, Set<string> | 'all'>;

const add = (folders: Folders, folder: string, name: string | null): void => {
  const names = folders.get(folder);
  if (name === null) folders.set(folder, 'all');
  else if (names !== 'all') folders.set(folder, new Set([...(names ?? []), name]));
};

const addFile = (folders: Folders, path: string): void => add(folders, dirname(path), basename(path));

/** The folders from one up to another above it. */
const upTo = (folder: string, top: string): string[] =>
  folder === top || dirname(folder) === folder ? [folder] : [folder, ...upTo(dirname(folder), top)];

/** The files of a rule folder, which lie one folder down. */
const ruleFiles = (folder: string, folders: Folders): string[] => {
  add(folders, folder, null);
  const packs = entriesIfAny(folder).filter(({ kind }) => kind === 'folder');
  const files = packs.flatMap(({ name }) => {
    const pack = join(folder, name);
    add(folders, pack, null);
    const found = entriesIfAny(pack).filter((file) => file.name.endsWith('.yaml'));
    return found.map((file) => join(pack, file.name));
  });
  return files.sort();
};

/** What holds for the jobs of one folder: its shop file, if it has one, and the rule folders that names. */
const surroundings = async (
  folder: string,
  folders: Folders,
  io: Io,
): Promise<{ readonly shop: string[]; readonly rules: readonly string[] }> => {
  const shop = await findShopFile(folder);
  // One that is put nearer takes the place of the one that holds.
  for (const one of upTo(folder, shop === null ? folder : dirname(shop))) add(folders, one, shopFileName);
  return { shop: shop === null ? [] : [shop], rules: (await shopFor(folder, io)).folders };
};

/** Whether two moments differ is told by this alone; what cannot be read counts as what stands in its way. */
const fingerprint = (read: ReadonlyMap<string, Uint8Array | Error>): string => {
  const hash = createHash('sha256');
  for (const [path, content] of read) {
    const bytes = content instanceof Error ? String((content as NodeJS.ErrnoException).code) : content;
    hash.update(`${path}\n${content instanceof Error ? 'unread' : content.byteLength}\n`).update(bytes);
  }
  return hash.digest('hex');
};

const once = <T>(items: readonly T[]): T[] => [...new Set(items)];

/** Reads all that the judgement of some files hangs on, but for the packs that ship. */
export const readSources = async (
  names: readonly string[],
  rules: readonly string[],
  io: Io,
): Promise<JobSources> => {
  const wanted: Folders = new Map();
  const files = await findFiles(names, io.cwd);
  const paths = files.map((file) => resolve(io.cwd, file));
  for (const name of names) {
    if (await isPattern(name)) add(wanted, resolve(io.cwd, patternParts(name).folder), null);
  }
  for (const path of paths) {
    addFile(wanted, path);
    // Behind a link it is the file itself that is saved.
    addFile(wanted, behindLinks(path));
  }
  const around = await Promise.all(
    once(paths.map(dirname)).map((folder) => surroundings(folder, wanted, io)),
  );
  const folders = once([...rules.map((one) => resolve(io.cwd, one)), ...around.flatMap((one) => one.rules)]);
  const packs = folders.flatMap((folder) => ruleFiles(folder, wanted));

  const read = new Map<string, Uint8Array | Error>();
  const readWith = async (path: string, reader: (path: string) => Promise<Uint8Array>): Promise<void> => {
    read.set(path, await reader(path).catch((error: Error) => error));
  };
  const own = once([...paths, ...around.flatMap((one) => one.shop)]);
  for (const path of own) await readWith(path, io.readFile);
  for (const path of packs) await readWith(path, async (one) => readPlain(one));
  return {
    files,
    wanted,
    print: fingerprint(read),
    io: {
      ...io,
      readFile: async (path) => {
        const content = read.get(path) ?? (await io.readFile(path));
        if (content instanceof Error) throw content;
        return content;
      },
    },
  };
};
