import { dirname, join, resolve } from 'node:path';
import type { PackRef } from '../input/job/pack-ref.ts';
import { readShop } from '../input/job/read-shop.ts';
import type { Shop } from '../input/job/shop.ts';
import { type LocatedFlaw, locate, type Problem } from '../input/problem.ts';
import { decode } from '../input/yaml/decode.ts';
import { exists, isFolder } from './disk/on-disk.ts';
import type { Io } from './io.ts';
import { readFailure } from './read-failure.ts';

export const shopFileName = 'cornerwise.yaml';

export interface FoundShop {
  /** The folder in which the search began; it goes on through every folder above. */
  readonly from: string;
  /** Where the shop file lies; null where there is none. */
  readonly path: string | null;
  readonly shop: Shop | null;
  /** Its rule folders, as absolute paths. */
  readonly folders: readonly string[];
  readonly problems: readonly Problem[];
  /** The packs that it names for jobs that name none. */
  readonly packs: readonly PackRef[];
  /** Places flaws in the shop file's text. */
  readonly locate: (flaws: readonly LocatedFlaw[]) => Problem[];
}

const nothing = { shop: null, folders: [], problems: [], packs: [], locate: () => [] } as const;

/** The nearest shop file at or above a folder, or null. */
export const findShopFile = (folder: string): string | null => {
  const path = join(folder, shopFileName);
  if (exists(path)) return path;
  const above = dirname(folder);
  return above === folder ? null : findShopFile(above);
};

const missingFolders = (rules: readonly PackRef[], from: string): LocatedFlaw[] =>
  rules
    .filter(({ ref }) => !isFolder(resolve(from, ref)))
    .map(({ ref, at }) => ({
      code: 'file-not-found',
      at,
      message: `there is no rule folder ${ref}`,
      hint: 'give rule folders as paths from the folder of this file',
    }));

/** Reads the shop file that holds for jobs in a folder; none is no mistake, and neither is one that says nothing. */
export const shopFor = async (folder: string, io: Io): Promise<FoundShop> => {
  const path = findShopFile(folder);
  const none: FoundShop = { ...nothing, from: folder, path };
  if (path === null) return none;
  let bytes: Uint8Array;
  try {
    bytes = await io.readFile(path);
  } catch (error) {
    return { ...none, problems: [{ ...readFailure(error, shopFileName), file: path }] };
  }
  return shopOf(bytes, path, folder);
};

/**
 * What the bytes of a shop file say.
 *
 * @param path where it lies, from which its rule folders are looked for
 * @param from the folder in which the search for it began
 */
export const shopOf = (bytes: Uint8Array, path: string, from: string): FoundShop => {
  const none: FoundShop = { ...nothing, from, path };
  const decoded = decode(bytes);
  if ('problem' in decoded) {
    const { problem } = decoded;
    return problem.code === 'file-empty' ? none : { ...none, problems: [{ ...problem, file: path }] };
  }
  const { shop, problems, packRefs, ruleRefs } = readShop(decoded.text, path);
  const place = (flaws: readonly LocatedFlaw[]): Problem[] => locate(decoded.text, flaws, path);
  const lies = dirname(path);
  const missing = place(missingFolders(ruleRefs, lies));
  return {
    from,
    path,
    shop,
    folders: ruleRefs.map(({ ref }) => resolve(lies, ref)),
    problems: [...problems, ...missing],
    packs: packRefs,
    locate: place,
  };
};
