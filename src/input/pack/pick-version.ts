import semver from 'semver';

/** `id@range`, or `id` for any version. */
export const splitRef = (ref: string): { readonly id: string; readonly range: string } => {
  const at = ref.indexOf('@');
  return at < 0
    ? { id: ref.trim(), range: '*' }
    : { id: ref.slice(0, at).trim(), range: ref.slice(at + 1).trim() };
};

export const isRange = (range: string): boolean => semver.validRange(range) !== null;

/** The newest version in a range, or null. */
export const newestIn = (range: string, versions: readonly string[]): string | null =>
  semver.maxSatisfying([...versions], range);

/** Versions, the newest first. */
export const newestFirst = (versions: readonly string[]): string[] => semver.rsort([...versions]);

export const isVersion = (text: string): boolean => semver.valid(text) === text;
