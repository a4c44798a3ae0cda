import { basename, dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const isBundled = basename(here) === 'dist';

/** The top of the package; the bundle lies one folder below it, and the sources two. */
const packageFolder = isBundled ? resolve(here, '..') : resolve(here, '../..');

/** The folder of the packs that ship. */
export const shippedRules = (): string => resolve(packageFolder, 'rules');

/** The folder of the schemas that the build writes, for editors. */
export const shippedSchemas = (): string => resolve(packageFolder, 'dist/schemas');

/**
 * The folder of the packs that the build read ahead; null where the sources run, which may have changed since.
 */
export const precompiledPacks = (): string | null => (isBundled ? resolve(here, 'packs') : null);
