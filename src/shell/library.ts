import { createHash } from 'node:crypto';
import { join } from 'node:path';
import type { Layout } from '../core/job.ts';
import type { Pack } from '../core/pack.ts';
import { isVersion, newestFirst } from '../input/pack/pick-version.ts';
import { type Problem, wholeFile } from '../input/problem.ts';
import { decode } from '../input/yaml/decode.ts';
import { readYaml } from '../input/yaml/read-yaml.ts';
import type { Node } from '../input/yaml/tree.ts';
import { mistrust } from './disk/mistrust.ts';
import { entriesIfAny } from './disk/on-disk.ts';
import { readPlain, readPlainText } from './disk/read-plain.ts';
import { precompiledPacks } from './package-folder.ts';
import { replacedPacks } from './published.ts';
import { readFailure } from './read-failure.ts';
import type { ResolvedPacks } from './resolved-packs.ts';

/** Where a version of a pack lies. */
export interface Shelf {
  readonly id: string;
  readonly version: string;
  readonly path: string;
}

/** A pack, or what is wrong with its file. */
interface FoundPack {
  /** Null exactly where there are problems. */
  readonly pack: Pack | null;
  readonly problems: readonly Problem[];
}

export interface LoadedPack extends FoundPack {
  readonly text: string;
  readonly path: string;
  /** Whether it takes the place of a published or shipped one of the same name and version, and says something else. */
  readonly replaced: boolean;
  /** The text as a tree, for the proofs in it; null where nothing can be made of it. */
  readonly tree: () => Node | null;
}

/** Rule folders, searched in order: of one version in two folders the first counts. */
export interface Library {
  readonly folders: readonly string[];
  /** Every id with its versions, the newest first. */
  readonly shelves: () => Promise<ReadonlyMap<string, readonly Shelf[]>>;
  readonly load: (shelf: Shelf) => Promise<LoadedPack>;
  /** Layouts that packs are prepared for ahead of the jobs. */
  readonly ahead: readonly Layout[];
  /**
   * What references with nothing wrong led to, by what they say: jobs with the same references share one set of prepared
   * packs. `resolvePacks` looks here first.
   */
  readonly resolved: Map<string, ResolvedPacks>;
}

// Pack files are few and small, so they are read synchronously.

const listFolder = (folder: string): Shelf[] =>
  // A folder that is not there is told of elsewhere; one that may not be read holds nothing for us.
  entriesIfAny(folder)
    .filter(({ kind }) => kind === 'folder')
    .flatMap(({ name: id }) =>
      entriesIfAny(join(folder, id))
        .filter(({ name }) => name.endsWith('.yaml') && isVersion(name.slice(0, -5)))
        .map(({ name }) => ({ id, version: name.slice(0, -5), path: join(folder, id, name) })),
    );

/** Far above any pack that was read ahead. */
const largestAhead = 1 << 24;

/** The pack of these very bytes as the build read it, or null where the build knows none or it was damaged since. */
const readPrecompiled = (sha256: string): Pack | null => {
  const folder = precompiledPacks();
  if (folder === null) return null;
  const path = join(folder, `${sha256}.json`);
  try {
    const text = readPlainText(path, largestAhead);
    const [seal, json] = [text.slice(0, 64), text.slice(65)];
    if (createHash('sha256').update(`${sha256}\n${json}`).digest('hex') === seal)
      return JSON.parse(json) as Pack;
    mistrust(path);
    return null;
  } catch {
    return null;
  }
};

const readNow = async (text: string, path: string, sha256: string): Promise<FoundPack> => {
  // Only packs of the user's own need what reads and checks one.
  const { readPack } = await import('../input/pack/read-pack.ts');
  return readPack(text, path, sha256);
};

const readVersion = async (text: string, path: string, sha256: string): Promise<FoundPack> => {
  const precompiled = readPrecompiled(sha256);
  return precompiled ? { pack: precompiled, problems: [] } : readNow(text, path, sha256);
};

const loadShelf = async (
  { id, version, path }: Shelf,
  isReplaced: ReturnType<typeof replacedPacks>,
): Promise<LoadedPack> => {
  const unread = (problem: Problem): LoadedPack => ({
    pack: null,
    tree: () => null,
    text: '',
    path,
    replaced: false,
    problems: [{ ...problem, file: path }],
  });
  let bytes: Uint8Array;
  try {
    bytes = readPlain(path);
  } catch (error) {
    return unread(readFailure(error, `${id}/${version}.yaml`));
  }
  const decoded = decode(bytes);
  if ('problem' in decoded) return unread(decoded.problem);
  const { text } = decoded;
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const { pack, problems } = await readVersion(text, path, sha256);
  const misplaced = pack && (pack.id !== id || pack.version !== version);
  return {
    pack: misplaced ? null : pack,
    problems: misplaced
      ? [
          wholeFile(
            'wrong-value',
            `this file calls itself ${pack.id} ${pack.version}`,
            `a pack lies at <pack>/<version>.yaml; move it or correct its first lines`,
            path,
          ),
        ]
      : problems,
    text,
    path,
    replaced: isReplaced({ id, version, path }, sha256),
    tree: () => readYaml(text).root,
  };
};

/**
 * A library over some folders; each version is read once.
 *
 * @param ahead layouts that packs are prepared for ahead of the jobs: worth while where there are many jobs
 */
export const openLibrary = (folders: readonly string[], ahead: readonly Layout[] = []): Library => {
  let shelves: ReadonlyMap<string, readonly Shelf[]> | null = null;
  const loaded = new Map<string, Promise<LoadedPack>>();
  const isReplaced = replacedPacks();
  const list = (): ReadonlyMap<string, readonly Shelf[]> => {
    const byRef = new Map<string, Shelf>();
    for (const shelf of folders.flatMap(listFolder)) {
      const ref = `${shelf.id}@${shelf.version}`;
      if (!byRef.has(ref)) byRef.set(ref, shelf);
    }
    const byId = new Map<string, Shelf[]>();
    for (const shelf of byRef.values()) byId.set(shelf.id, [...(byId.get(shelf.id) ?? []), shelf]);
    return new Map(
      [...byId]
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([id, found]) => {
          const order = newestFirst(found.map(({ version }) => version));
          return [id, [...found].sort((a, b) => order.indexOf(a.version) - order.indexOf(b.version))];
        }),
    );
  };
  return {
    folders,
    ahead,
    resolved: new Map(),
    shelves: async () => {
      shelves ??= list();
      return shelves;
    },
    load: (shelf) => {
      const pending = loaded.get(shelf.path) ?? loadShelf(shelf, isReplaced);
      loaded.set(shelf.path, pending);
      return pending;
    },
  };
};

/** `id@major` of the newest version of every pack of the library. */
export const newestRefs = async (library: Library): Promise<string[]> =>
  (await newestPacks(library)).map(({ id, version }) => `${id}@${version.split('.')[0]}`);

/** Every pack of the library in its newest version; those that cannot be read are left out. */
export const newestPacks = async (library: Library): Promise<Pack[]> => {
  const shelves = [...(await library.shelves()).values()].map(([newest]) => newest);
  const loads = await Promise.all(shelves.map((shelf) => (shelf ? library.load(shelf) : null)));
  return loads.map((load) => load?.pack ?? null).filter((pack) => pack !== null);
};
