import { join } from 'node:path';
import { digest } from './disk/digest.ts';
import { readPlain, readPlainText } from './disk/read-plain.ts';
import { shippedRules } from './package-folder.ts';

/** Where a version of a pack lies. */
interface Place {
  readonly id: string;
  readonly version: string;
  readonly path: string;
}

/** The hashes of published versions, by `id@version`. */
const releasedHashes = (): Readonly<Record<string, unknown>> => {
  try {
    return JSON.parse(readPlainText(join(shippedRules(), 'released.json')));
  } catch {
    return {};
  }
};

/**
 * Makes a function that tells whether a pack says something else than the published or shipped one of the same name and
 * version: one of a shop that stands in for it, or one that was changed where it lies.
 */
export const replacedPacks = (): ((place: Place, sha256: string) => boolean) => {
  let released: Readonly<Record<string, unknown>> | null = null;
  return ({ id, version, path }, sha256) => {
    released ??= releasedHashes();
    const published = released[`${id}@${version}`];
    if (published !== undefined) return published !== sha256;
    const shipped = join(shippedRules(), id, `${version}.yaml`);
    if (path === shipped) return false;
    try {
      return digest(readPlain(shipped)) !== sha256;
    } catch {
      // There is none, so that nothing is replaced.
      return false;
    }
  };
};
