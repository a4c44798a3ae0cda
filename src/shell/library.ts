import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Pack } from '../core/pack.ts';
import { decode } from '../input/decode.ts';
import { isVersion, newestFirst } from '../input/pick-version.ts';
import { type Problem, wholeFile } from '../input/problem.ts';
import { type ReadPack, readPack } from '../input/read-pack.ts';
import { readFailure } from './read-failure.ts';

/** Where a version of a pack lies. */
export interface Shelf {
  readonly id: string;
  readonly version: string;
  readonly path: string;
}

export interface LoadedPack extends ReadPack {
  readonly text: string;
  readonly path: string;
}

/** Rule folders, searched in order: of one version in two folders the first counts. */
export interface Library {
  readonly folders: readonly string[];
  /** Every id with its versions, the newest first. */
  readonly shelves: () => Promise<ReadonlyMap<string, readonly Shelf[]>>;
  readonly load: (shelf: Shelf) => Promise<LoadedPack>;
}

const listFolder = async (folder: string): Promise<Shelf[]> => {
  // Whoever names a folder that does not exist is told so elsewhere; a folder of ours that may not be read holds
  // nothing for this call.
  const ids = await readdir(folder, { withFileTypes: true }).catch(() => []);
  const shelves = await Promise.all(
    ids
      .filter((entry) => entry.isDirectory())
      .map(async ({ name: id }) => {
        const files = await readdir(join(folder, id)).catch(() => []);
        return files
          .filter((file) => file.endsWith('.yaml') && isVersion(file.slice(0, -5)))
          .map((file) => ({ id, version: file.slice(0, -5), path: join(folder, id, file) }));
      }),
  );
  return shelves.flat();
};

/** Packs that were read in this process, by place and content: reading is pure, so that the same bytes give the same. */
const readBefore = new Map<string, ReadPack>();
const mostKept = 100;

const readOnce = (text: string, path: string, sha256: string): ReadPack => {
  const key = `${sha256} ${path}`;
  const read = readBefore.get(key) ?? readPack(text, path, sha256);
  if (readBefore.size >= mostKept) readBefore.clear();
  readBefore.set(key, read);
  return read;
};

const loadShelf = async ({ id, version, path }: Shelf): Promise<LoadedPack> => {
  const unread = (problem: Problem): LoadedPack => ({
    pack: null,
    root: null,
    text: '',
    path,
    problems: [{ ...problem, file: path }],
  });
  let bytes: Uint8Array;
  try {
    bytes = await readFile(path);
  } catch (error) {
    return unread(readFailure(error, `${id}/${version}.yaml`));
  }
  const decoded = decode(bytes);
  if ('problem' in decoded) return unread(decoded.problem);
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const read = readOnce(decoded.text, path, sha256);
  const misplaced = read.pack && (read.pack.id !== id || read.pack.version !== version);
  const problems: readonly Problem[] = misplaced
    ? [
        wholeFile(
          'wrong-value',
          `this file calls itself ${read.pack?.id} ${read.pack?.version}`,
          `a pack lies at <pack>/<version>.yaml; move it or correct its first lines`,
          path,
        ),
      ]
    : read.problems;
  return { ...read, pack: misplaced ? null : read.pack, problems, text: decoded.text, path };
};

/** A library over some folders; each version is read once. */
export const openLibrary = (folders: readonly string[]): Library => {
  let listed: Promise<ReadonlyMap<string, readonly Shelf[]>> | null = null;
  const loaded = new Map<string, Promise<LoadedPack>>();
  const list = async (): Promise<ReadonlyMap<string, readonly Shelf[]>> => {
    const byRef = new Map<string, Shelf>();
    for (const shelf of (await Promise.all(folders.map(listFolder))).flat()) {
      const ref = `${shelf.id}@${shelf.version}`;
      if (!byRef.has(ref)) byRef.set(ref, shelf);
    }
    const byId = new Map<string, Shelf[]>();
    for (const shelf of byRef.values()) byId.set(shelf.id, [...(byId.get(shelf.id) ?? []), shelf]);
    return new Map(
      [...byId]
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([id, shelves]) => {
          const order = newestFirst(shelves.map(({ version }) => version));
          return [id, [...shelves].sort((a, b) => order.indexOf(a.version) - order.indexOf(b.version))];
        }),
    );
  };
  return {
    folders,
    shelves: () => {
      listed ??= list();
      return listed;
    },
    load: (shelf) => {
      const pending = loaded.get(shelf.path) ?? loadShelf(shelf);
      loaded.set(shelf.path, pending);
      return pending;
    },
  };
};

/** Every pack of the library in its newest version; those that cannot be read are left out. */
export const newestPacks = async (library: Library): Promise<Pack[]> => {
  const shelves = [...(await library.shelves()).values()].map(([newest]) => newest);
  const loads = await Promise.all(shelves.map((shelf) => (shelf ? library.load(shelf) : null)));
  return loads.map((load) => load?.pack ?? null).filter((pack) => pack !== null);
};
