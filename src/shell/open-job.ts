import { dirname, resolve } from 'node:path';
import type { JobSource } from '../input/job/job-context.ts';
import type { Shop } from '../input/job/shop.ts';
import type { Problem } from '../input/problem.ts';
import { decode, largest } from '../input/yaml/decode.ts';
import type { AsOf } from './as-of.ts';
import { isStdin } from './disk/read-stdin.ts';
import { isPattern } from './file-patterns.ts';
import type { Io } from './io.ts';
import { jobSource } from './job-source.ts';
import type { Library } from './library.ts';
import { shippedRules } from './package-folder.ts';
import { readFailure } from './read-failure.ts';
import { type ReadText, readJobText } from './read-job-text.ts';
import { type FoundShop, shopFor } from './shop-file.ts';

/** A job file that was read, whatever is wrong with it, and what it was read against. */
export interface OpenJob {
  readonly bytes: Uint8Array;
  readonly text: string;
  readonly read: ReadText;
  readonly found: FoundShop;
  readonly source: JobSource;
  readonly library: Library;
}

/** Why there is nothing to read a job from: the file itself, or the shop file above it. */
export interface NotOpened {
  readonly problems: readonly Problem[];
  readonly shop: Shop | null;
}

const isSame = (one: Uint8Array, other: Uint8Array): boolean => Buffer.compare(one, other) === 0;

/**
 * Reads a job file against its packs: those of the folders named, of the shop file and of the package.
 *
 * @param file a path, or `-` for standard input
 * @param asOf the instant that the job is judged at; null for now
 * @param known the same file as it was read before: it serves again where the bytes are the same
 */
export const openJobFile = async (
  file: string,
  rules: readonly string[],
  io: Io,
  libraries: (folders: readonly string[]) => Library,
  asOf: AsOf | null = null,
  known: OpenJob | null = null,
): Promise<OpenJob | NotOpened> => {
  const path = resolve(io.cwd, file);
  const fromStdin = isStdin(file);
  let bytes: Uint8Array;
  try {
    bytes = fromStdin ? await io.readStdin(largest) : await io.readFile(path);
  } catch (error) {
    return { problems: [readFailure(error, file, await isPattern(file))], shop: null };
  }
  if (known && isSame(bytes, known.bytes)) return known;
  const decoded = decode(bytes);
  if ('problem' in decoded) return { problems: [decoded.problem], shop: null };
  const found = await shopFor(fromStdin ? io.cwd : dirname(path), io);
  if (found.problems.length > 0) return { problems: found.problems, shop: null };
  const folders = [...rules.map((folder) => resolve(io.cwd, folder)), ...found.folders, shippedRules()];
  const library = libraries(folders);
  const { text } = decoded;
  const source = jobSource(fromStdin ? null : path, io, asOf);
  return { bytes, text, found, library, source, read: await readJobText(text, found, library, source) };
};
