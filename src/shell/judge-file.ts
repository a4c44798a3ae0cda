import { basename, dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { assess } from '../core/assess.ts';
import type { Worksheet } from '../core/worksheet.ts';
import { combinedFlaws } from '../input/combine-packs.ts';
import { decode } from '../input/decode.ts';
import { splitRef } from '../input/pick-version.ts';
import { locate, type Problem, wholeFile } from '../input/problem.ts';
import { openJob, readJob } from '../input/read-job.ts';
import type { Shop } from '../input/shop.ts';
import type { Surroundings } from '../input/surroundings.ts';
import type { Io } from './io.ts';
import { type Library, newestPacks, openLibrary } from './library.ts';
import type { AsOf } from './options.ts';
import { readFailure } from './read-failure.ts';
import { resolvePacks } from './resolve-packs.ts';
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

const definitionsAgree =
  (packs: Surroundings['packs'], versions: ReadonlyMap<string, string | null>) =>
  (check: string, version: string): boolean | null => {
    const id = check.split('/')[0] ?? '';
    if (packs.find((pack) => pack.id === id)?.version === version) return true;
    const older = versions.get(`${check}@${version}`);
    const now = packs.flatMap((pack) => pack.checks).find((one) => one.id === check)?.definition;
    return older === undefined || older === null ? null : older === now;
  };

/** Definitions that waivers refer to by an older version, loaded before the job is read. */
const waivedDefinitions = async (
  root: ReturnType<typeof openJob>,
  library: Library,
): Promise<Map<string, string | null>> => {
  const found = new Map<string, string | null>();
  const shelves = await library.shelves();
  for (const { check, version } of root.waivedUnder) {
    const shelf = shelves.get(check.split('/')[0] ?? '')?.find((one) => one.version === version);
    const pack = shelf ? (await library.load(shelf)).pack : null;
    found.set(`${check}@${version}`, pack?.checks.find((one) => one.id === check)?.definition ?? null);
  }
  return found;
};

const namesElsewhere = async (library: Library): Promise<Map<string, string>> => {
  const names = new Map<string, string>();
  for (const pack of await newestPacks(library)) {
    for (const { id } of [...pack.channels, ...pack.components]) if (!names.has(id)) names.set(id, pack.id);
    for (const { name } of pack.steps) if (!names.has(name)) names.set(name, pack.id);
  }
  return names;
};

const namesUnknown = new Set(['unknown-channel', 'unknown-name']);

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
  const library = libraries([...rules, ...found.folders, shippedRules()]);
  const opened = openJob(decoded.text);
  // A text that is no YAML asks for no packs, and what readers would say of it would only be noise.
  if (opened.root === null) return fail(locate(decoded.text, opened.flaws), shop);
  const resolved = await resolvePacks(opened.packs ?? found.packs, library);
  const versions = await waivedDefinitions(opened, library);
  const around = (elsewhere: ReadonlyMap<string, string>): Surroundings => ({
    packs: resolved.packs,
    shop,
    elsewhere,
    sameDefinition: definitionsAgree(resolved.packs, versions),
  });
  const incomplete = resolved.flaws.length > 0 || resolved.problems.length > 0;
  const places = new Map((opened.packs ?? []).map(({ ref, at }) => [splitRef(ref).id, at]));
  const together = incomplete ? [] : combinedFlaws(resolved.packs, places, opened.packsAt);
  const flaws = [...(opened.packs ? resolved.flaws : []), ...together];
  let read = readJob(opened, around(new Map()), flaws);
  // Only a name that the job's own packs do not know is worth reading every other pack for.
  if (read.problems.some(({ code }) => namesUnknown.has(code))) {
    read = readJob(opened, around(await namesElsewhere(library)), flaws);
  }
  // With a pack missing nobody can tell whether a channel, check or component is misspelt.
  const own = incomplete ? read.problems.filter(({ code }) => !namesUnknown.has(code)) : read.problems;
  const ofShop = opened.packs ? [] : found.locate(resolved.flaws);
  const problems = [...own, ...resolved.problems, ...ofShop];
  if (problems.length > 0 || read.job === null) return fail(problems, shop);
  const asOf = options.asOf(read.job.zone);
  if (asOf === null) {
    const message = `the clocks in ${read.job.zone} skip the time given by --as-of`;
    return fail([wholeFile('skipped-time', message, 'give it with an offset, such as +00:00')], shop);
  }
  const sheet = assess(read.job, resolved.packs, asOf);
  if (sheet.findings.length === 0) {
    const message = 'no check of this job concerns this vehicle, so nothing can be judged';
    const hint = 'check layout and packs';
    return fail([wholeFile('no-checks', message, hint)], shop);
  }
  return { file, shop, problems: null, sheet: { ...sheet, warnings: [...read.warnings, ...sheet.warnings] } };
};
