import type { Job } from '../core/job.ts';
import type { Pack } from '../core/pack.ts';
import { type PreparedPacks, preparePacks } from '../core/prepare/prepared-packs.ts';
import type { Warning } from '../core/worksheet-parts.ts';
import type { JobContext } from '../input/job/job-context.ts';
import { type JobFile, openJob, readJob } from '../input/job/read-job.ts';
import { combinedFlaws } from '../input/pack/combine-packs.ts';
import { noPacksNamed } from '../input/pack/no-packs.ts';
import { splitRef } from '../input/pack/pick-version.ts';
import { type LocatedFlaw, locate, type Problem } from '../input/problem.ts';
import type { Node } from '../input/yaml/tree.ts';
import { type Library, newestPacks } from './library.ts';
import { resolvePacks } from './resolve-packs.ts';
import type { FoundShop } from './shop-file.ts';

const definitionsAgree =
  (packs: readonly Pack[], versions: ReadonlyMap<string, string | null>) =>
  (check: string, version: string): boolean | null => {
    const id = check.split('/')[0] ?? '';
    if (packs.find((pack) => pack.id === id)?.version === version) return true;
    const older = versions.get(`${check}@${version}`);
    const now = packs.flatMap((pack) => pack.checks).find((one) => one.id === check)?.definition;
    return older === undefined || older === null ? null : older === now;
  };

/** Definitions that waivers refer to by an older version, loaded before the job is read. */
const waivedDefinitions = async (root: JobFile, library: Library): Promise<Map<string, string | null>> => {
  const found = new Map<string, string | null>();
  if (root.waivedUnder.length === 0) return found;
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

/** What is wrong with packs taken together, at the places where the job names them. */
const flawsTogether = (
  opened: JobFile,
  { disagreements }: PreparedPacks,
  found: FoundShop,
): LocatedFlaw[] => {
  if (opened.packs === null && found.packs.length === 0) return [noPacksNamed(found, opened.packsAt)];
  const places = new Map((opened.packs ?? []).map(({ ref, at }) => [splitRef(ref).id, at]));
  return combinedFlaws(disagreements, places, opened.packsAt);
};

const namesUnknown: ReadonlySet<string> = new Set(['unknown-channel', 'unknown-name']);

/** What became of a job's text; the job is null exactly where there are problems. */
export interface ReadText {
  /** The text as a tree; null where nothing could be made of it. */
  readonly root: Node | null;
  readonly job: Job | null;
  readonly prepared: PreparedPacks;
  readonly problems: readonly Problem[];
  readonly warnings: readonly Warning[];
}

/**
 * A job's text against its packs: they are found, the text is read, and what is wrong with either comes in one list.
 */
export const readJobText = async (text: string, found: FoundShop, library: Library): Promise<ReadText> => {
  const opened = openJob(text);
  // A text that is no YAML asks for no packs, and what readers would say of it would only be noise.
  if (opened.root === null) {
    const prepared = preparePacks([], []);
    return { root: null, job: null, prepared, problems: locate(text, opened.flaws), warnings: [] };
  }
  const named = opened.packs ?? found.packs;
  const resolved = await resolvePacks(named, library);
  const { prepared } = resolved;
  const versions = await waivedDefinitions(opened, library);
  const context = (elsewhere: ReadonlyMap<string, string>): JobContext => ({
    prepared,
    shop: found.shop,
    elsewhere,
    sameDefinition: definitionsAgree(prepared.packs, versions),
  });
  const incomplete = resolved.flaws.length > 0 || resolved.problems.length > 0;
  const nothingNamed = named.length === 0;
  const together = incomplete ? [] : flawsTogether(opened, prepared, found);
  const flaws = [...(opened.packs ? resolved.flaws : []), ...together];
  let read = readJob(opened, context(new Map()), flaws);
  // Only a name that the job's own packs do not know is worth reading every other pack for.
  if (!nothingNamed && read.problems.some(({ code }) => namesUnknown.has(code))) {
    read = readJob(opened, context(await namesElsewhere(library)), flaws);
  }
  // With a pack missing, or none named, nobody can tell whether a channel, check or component is misspelt.
  const own =
    incomplete || nothingNamed ? read.problems.filter(({ code }) => !namesUnknown.has(code)) : read.problems;
  const ofShop = opened.packs ? [] : found.locate(resolved.flaws);
  const problems = [...own, ...resolved.problems, ...ofShop];
  return {
    root: opened.root,
    job: problems.length > 0 ? null : read.job,
    prepared,
    problems,
    warnings: read.warnings,
  };
};
