import { dirname, join, resolve } from 'node:path';
import type { PackRef } from '../input/job/pack-ref.ts';
import { readShop } from '../input/job/read-shop.ts';
import type { Shop } from '../input/job/shop.ts';
import { type LocatedFlaw, locate, type Problem } from '../input/problem.ts';
import { decode } from '../input/yaml/decode.ts';
import type { Io } from './io.ts';
import { exists, isFolder } from './on-disk.ts';
import { readFailure } from './read-failure.ts';

export const shopFileName = 'cornerwise.yaml';

export interface FoundShop {
  readonly shop: Shop | null;
  /** Its rule folders, as absolute paths. */
  readonly folders: readonly string[];
  readonly problems: readonly Problem[];
  /** The packs that it names for jobs that name none. */
  readonly packs: readonly PackRef[];
  /** Places flaws in the shop file's text. */
  readonly locate: (flaws: readonly LocatedFlaw[]) => Problem[];
}

const none: FoundShop = { shop: null, folders: [], problems: [], packs: [], locate: () => [] };

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
      hint: 'rule folders are named from where this file lies',
    }));

/** Reads the shop file that holds for jobs in a folder; none is no mistake, and neither is one that says nothing. */
export const shopFor = async (folder: string, io: Io): Promise<FoundShop> => {
  const path = findShopFile(folder);
  if (path === null) return none;
  let bytes: Uint8Array;
  try {
    bytes = await io.readFile(path);
  } catch (error) {
    return { ...none, problems: [{ ...readFailure(error, shopFileName), file: path }] };
  }
  const decoded = decode(bytes);
  if ('problem' in decoded) {
    const { problem } = decoded;
    return problem.code === 'file-empty' ? none : { ...none, problems: [{ ...problem, file: path }] };
  }
  const { shop, problems, packRefs, ruleRefs } = readShop(decoded.text, path);
  const place = (flaws: readonly LocatedFlaw[]): Problem[] => locate(decoded.text, flaws, path);
  const from = dirname(path);
  const missing = place(missingFolders(ruleRefs, from));
  return {
    shop,
    folders: ruleRefs.map(({ ref }) => resolve(from, ref)),
    problems: [...problems, ...missing],
    packs: packRefs,
    locate: place,
  };
};
