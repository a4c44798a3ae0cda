import { basename, dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { assess } from '../core/assess.ts';
import type { Worksheet } from '../core/worksheet.ts';
import { decode } from '../input/decode.ts';
import { type Problem, wholeFile } from '../input/problem.ts';
import type { Shop } from '../input/shop.ts';
import type { Io } from './io.ts';
import { type Library, openLibrary } from './library.ts';
import type { AsOf } from './options.ts';
import { readFailure } from './read-failure.ts';
import { type ReadText, readJobText } from './read-job-text.ts';
import { shopFor } from './shop-file.ts';
import { withShownPaths } from './shown-path.ts';

/** What became of one file: a worksheet, or the problems that stand in its way. */
export type Judged =
  | { readonly file: string; readonly sheet: Worksheet; readonly shop: Shop | null; readonly problems: null }
  | {
      readonly file: string;
      readonly sheet: null;
      readonly shop: Shop | null;
      readonly problems: readonly Problem[];
    };

export interface JudgeOptions {
  /** The instant to judge at, which may hang on the job's zone. */
  readonly asOf: AsOf;
  /** Rule folders from the command line, which come first. */
  readonly rules: readonly string[];
}

/** The folder of the packs that ship; the bundle and the sources both lie two folders below the package. */
export const shippedRules = (): string => {
  const here = dirname(fileURLToPath(import.meta.url));
  const top = basename(here) === 'dist' ? resolve(here, '..') : resolve(here, '../..');
  return resolve(top, 'rules');
};

/** Opens libraries once a set of folders, since many jobs share one. */
export const libraryCache = (): ((folders: readonly string[]) => Library) => {
  const open = new Map<string, Library>();
  return (folders) => {
    const key = folders.join('\n');
    const library = open.get(key) ?? openLibrary(folders);
    open.set(key, library);
    return library;
  };
};

/** The sheet of a job that was read, or why there can be none. */
const assessAt = ({ job, packs, warnings }: ReadText, asOf: AsOf): Worksheet | Problem => {
  if (job === null) throw new Error('a job with problems is not assessed');
  const at = asOf(job.zone);
  if (at === null) {
    const message = `the clocks in ${job.zone} skip the time given by --as-of`;
    return wholeFile('skipped-time', message, 'give it with an offset, such as +00:00');
  }
  const sheet = assess(job, packs, at);
  if (sheet.findings.length === 0) {
    const message = 'no check of this job concerns this vehicle, so nothing can be judged';
    return wholeFile('no-checks', message, 'check layout and packs');
  }
  return { ...sheet, warnings: [...warnings, ...sheet.warnings] };
};

/**
 * Judges one job file, whatever stands in it: its packs are found, its text is read, and it is assessed. Nothing in
 * a file makes this throw.
 *
 * @param file a path, or `-` for standard input
 */
export const judgeFile = async (
  file: string,
  options: JudgeOptions,
  io: Io,
  libraries: (folders: readonly string[]) => Library,
): Promise<Judged> => {
  const fail = (problems: readonly Problem[], shop: Shop | null = null): Judged => ({
    file,
    sheet: null,
    shop,
    problems: withShownPaths(problems, io.cwd),
  });
  const path = resolve(io.cwd, file);
  let bytes: Uint8Array;
  try {
    bytes = file === '-' ? await io.readStdin() : await io.readFile(path);
  } catch (error) {
    return fail([readFailure(error, file)]);
  }
  const decoded = decode(bytes);
  if ('problem' in decoded) return fail([decoded.problem]);
  const found = await shopFor(file === '-' ? io.cwd : dirname(path), io);
  if (found.problems.length > 0) return fail(found.problems);
  const { shop } = found;

  const rules = options.rules.map((folder) => resolve(io.cwd, folder));
  const read = await readJobText(
    decoded.text,
    found,
    libraries([...rules, ...found.folders, shippedRules()]),
  );
  if (read.problems.length > 0) return fail(read.problems, shop);
  const sheet = assessAt(read, options.asOf);
  return 'code' in sheet ? fail([sheet], shop) : { file, shop, problems: null, sheet };
};
