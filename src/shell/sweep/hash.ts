import { createHash } from 'node:crypto';

/** Characters of such a hash of one piece. */
export const sealLength = 43;

/** SHA-256 of some pieces, each told apart from the next, in URL-safe base 64. */
export const contentHash = (...pieces: readonly (string | Uint8Array)[]): string => {
  const hash = createHash('sha256');
  if (pieces.length === 1) return hash.update(pieces[0] ?? '').digest('base64url');
  for (const piece of pieces) hash.update(`${piece.length}\n`).update(piece);
  return hash.digest('base64url');
};

/**
 * A number of a name that is the same on every machine: FNV-1a over its UTF-16 units, 32 bits, with the finish of
 * MurmurHash3, since the low bits of FNV alone are uneven on names that differ in their last digit only. Both are in
 * the public domain.
 */
export const nameHash = (name: string): number => {
  let hash = 0x811c9dc5;
  for (let index = 0; index < name.length; index += 1) {
    hash = Math.imul(hash ^ name.charCodeAt(index), 0x01000193);
  }
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return (hash ^ (hash >>> 16)) >>> 0;
};
