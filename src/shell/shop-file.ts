import { access } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { decode } from '../input/decode.ts';
import type { Problem } from '../input/problem.ts';
import { readShop, type Shop } from '../input/shop.ts';
import type { Io } from './io.ts';

export const shopFileName = 'cornerwise.yaml';

export interface FoundShop {
  readonly shop: Shop | null;
  /** Its rule folders, as absolute paths. */
  readonly folders: readonly string[];
  readonly problems: readonly Problem[];
}

const exists = async (path: string): Promise<boolean> =>
  access(path).then(
    () => true,
    () => false,
  );

/** The nearest shop file at or above a folder, or null. */
export const findShopFile = async (folder: string): Promise<string | null> => {
  const path = join(folder, shopFileName);
  if (await exists(path)) return path;
  const above = dirname(folder);
  return above === folder ? null : findShopFile(above);
};

/** Reads the shop file that holds for jobs in a folder; none is no mistake. */
export const shopFor = async (folder: string, io: Io): Promise<FoundShop> => {
  const path = await findShopFile(folder);
  if (path === null) return { shop: null, folders: [], problems: [] };
  const decoded = decode(await io.readFile(path));
  if ('problem' in decoded)
    return { shop: null, folders: [], problems: [{ ...decoded.problem, file: path }] };
  const { shop, problems } = readShop(decoded.text, path);
  return { shop, folders: shop?.rules.map((rules) => resolve(dirname(path), rules)) ?? [], problems };
};
