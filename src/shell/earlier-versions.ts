import { join } from 'node:path';
import type { Pack } from '../core/pack.ts';
import { readPlainText } from './disk/read-plain.ts';
import { shippedRules } from './package-folder.ts';

const read = <T>(name: string): Readonly<Record<string, T>> =>
  JSON.parse(readPlainText(join(shippedRules(), name))) as Record<string, T>;

/** Versions of the shipped packs from before limits had to be pinned. */
export interface EarlierVersions {
  /** The lines of a version's proofs that today's judgement need not leave true; null where it is no earlier one. */
  readonly excusedOf: (pack: Pack) => readonly number[] | null;
}

/**
 * Reads which versions of which bytes were released before limits had to be pinned. Such a version never changes, so it
 * need only keep those of its proofs that a better judgement leaves true. All others must show all that they say.
 */
export const earlierVersions = (): EarlierVersions => {
  const lines = read<readonly number[]>('earlier.json');
  const released = read<string>('released.json');
  return {
    excusedOf: ({ id, version, sha256 }) => {
      const ref = `${id}@${version}`;
      return released[ref] === sha256 ? (lines[ref] ?? null) : null;
    },
  };
};
