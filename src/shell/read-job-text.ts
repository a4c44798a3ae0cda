import type { Job } from '../core/job.ts';
import type { Pack } from '../core/pack.ts';
import { type PreparedPacks, preparePacks } from '../core/prepare/prepared-packs.ts';
import type { Warning } from '../core/worksheet-parts.ts';
import type { JobContext, JobSource } from '../input/job/job-context.ts';
import { type JobFile, openJob, readJob } from '../input/job/read-job.ts';
import { combinedFlaws } from '../input/pack/combine-packs.ts';
import { splitRef } from '../input/pack/pick-version.ts';
import { type LocatedFlaw, locate, type Problem } from '../input/problem.ts';
import type { UsualForm } from '../input/usual/usual-form.ts';
import { get, type Node } from '../input/yaml/tree.ts';
import { type Library, newestPacks, newestRefs } from './library.ts';
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
const flawsTogether = (opened: JobFile, { disagreements }: PreparedPacks): LocatedFlaw[] => {
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
  /** The tree in its usual form; null where nothing could be made of the text. */
  readonly form: UsualForm | null;
  /** True where the file's name or the time of its saving stands for something that the text does not say. */
  readonly restsOnFile: boolean;
}

/** Packs as a job names them; where nobody names any, all that are at hand. */
const packsNamed = async (opened: JobFile, found: FoundShop, library: Library) => {
  const named = opened.packs ?? found.packs;
  if (opened.packs !== null || named.length > 0) return { named, packsAssumed: false };
  const at = opened.packsAt;
  return { named: (await newestRefs(library)).map((ref) => ({ ref, at })), packsAssumed: true };
};

const isSavedTime = (warning: Warning): boolean =>
  warning.kind === 'assumed' && warning.what.some((one) => one.of === 'opened' && one.from === 'saved');

/**
 * A job's text against its packs: they are found, the text is read, and what is wrong with either comes in one list.
 *
 * @param source the file that the text is of, for what the text leaves out
 */
export const readJobText = async (
  text: string,
  found: FoundShop,
  library: Library,
  source?: JobSource,
): Promise<ReadText> => {
  const opened = openJob(text);
  // A text that is no YAML asks for no packs, and what readers would say of it would only be noise.
  if (opened.root === null) {
    const prepared = preparePacks([], []);
    const problems = locate(text, opened.flaws);
    return { root: null, job: null, prepared, problems, warnings: [], form: null, restsOnFile: false };
  }
  const { named, packsAssumed } = await packsNamed(opened, found, library);
  const resolved = await resolvePacks(named, library);
  const { prepared } = resolved;
  const versions = await waivedDefinitions(opened, library);
  const context = (elsewhere: ReadonlyMap<string, string>): JobContext => ({
    prepared,
    shop: found.shop,
    elsewhere,
    sameDefinition: definitionsAgree(prepared.packs, versions),
    packsAssumed,
    ...(source ? { source } : {}),
  });
  const incomplete = resolved.flaws.length > 0 || resolved.problems.length > 0;
  const nothingNamed = named.length === 0;
  const together = incomplete ? [] : flawsTogether(opened, prepared);
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
    warnings: [
      ...resolved.replaced.map(
        ({ id, version, path }): Warning => ({ kind: 'pack-replaced', pack: id, version, path }),
      ),
      ...read.warnings,
    ],
    form: read.form,
    restsOnFile: get(opened.root, 'job') === undefined || read.warnings.some(isSavedTime),
  };
};
