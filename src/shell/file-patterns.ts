import { join, resolve } from 'node:path';

/** What finds files by patterns, loaded where a name may be one: mostly the files are named, or the shell found them. */
const finder = () => import('tinyglobby');

/**
 * A name with the separators of patterns. On Windows a backslash parts folders, as people type it there; elsewhere it
 * takes the meaning from the sign behind it.
 */
const withSlashes = (name: string, platform: NodeJS.Platform): string =>
  platform === 'win32' ? name.replaceAll('\\', '/') : name;

/**
 * The folder that a pattern begins with, as it is, and the pattern below it: a drive or a folder above is no part of what
 * is looked for.
 */
export const patternParts = (
  name: string,
  platform: NodeJS.Platform = process.platform,
): { readonly folder: string; readonly pattern: string } => {
  const parts = withSlashes(name, platform).split('/');
  const first = parts.findIndex((part) => /[\\*?[\]{}()!+@]/u.test(part));
  const fixed = first < 0 ? parts.length - 1 : first;
  // A slash alone, and a drive with it, are folders; without it a drive is wherever it was left.
  const folder = parts.slice(0, fixed).join('/');
  return {
    folder: fixed > 0 && /^(?:[a-z]:)?$/iu.test(folder) ? `${folder}/` : folder,
    pattern: parts.slice(fixed).join('/'),
  };
};

/** Whether a name is a pattern such as `jobs/*.yaml`, on Windows also `jobs\*.yaml`. */
export const isPattern = async (
  name: string,
  platform: NodeJS.Platform = process.platform,
): Promise<boolean> => (await finder()).isDynamicPattern(withSlashes(name, platform));

/** The files that a pattern matches, sorted; named from its folder on, as they would be typed. */
export const matching = async (
  name: string,
  cwd: string,
  platform: NodeJS.Platform = process.platform,
): Promise<string[]> => {
  const { folder, pattern } = patternParts(name, platform);
  const { glob } = await finder();
  const options = { cwd: resolve(cwd, folder), onlyFiles: true, expandDirectories: false };
  return (await glob([pattern], options)).map((match) => join(folder, match)).sort();
};
