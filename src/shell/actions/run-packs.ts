import { resolve } from 'node:path';
import type { Pack } from '../../core/pack.ts';
import { coverage, runProof } from '../../core/proofs/prove.ts';
import { hasFailed, proveSuspects, usualRate } from '../../core/suspects/proof/prove-suspects.ts';
import type { Shop } from '../../input/job/shop.ts';
import { readProofs } from '../../input/pack/read-proofs.ts';
import { type Problem, wholeFile } from '../../input/problem.ts';
import { packList, packPage } from '../../report/packs-text.ts';
import { renderProblems } from '../../report/problems.ts';
import { type Proved, proofReport } from '../../report/proofs.ts';
import { makeStyle, type Style } from '../../report/style.ts';
import { type Library, type LoadedPack, newestPacks, openLibrary } from '../library.ts';
import { type LookFlags, reportOptions } from '../look.ts';
import { shippedRules } from '../package-folder.ts';
import { resolvePacks } from '../resolve-packs.ts';
import { exitCodes, type Shell } from '../shell.ts';
import { shopFor } from '../shop-file.ts';
import { shownPath, withShownPaths } from '../shown-path.ts';

/** What the commands of `packs` are called with. */
export interface PacksFlags extends LookFlags {
  readonly rules: readonly string[];
}

interface Opened {
  readonly library: Library;
  readonly style: Style;
  readonly shop: Shop | null;
  readonly problems: readonly Problem[];
}

const open = async (flags: PacksFlags, { io }: Shell): Promise<Opened> => {
  const { shop, folders, problems } = await shopFor(io.cwd, io);
  const own = flags.rules.map((rules) => resolve(io.cwd, rules));
  return {
    library: openLibrary([...own, ...folders, shippedRules()]),
    style: makeStyle(reportOptions(flags, shop, io)),
    shop,
    problems,
  };
};

const report = (problems: readonly Problem[], style: Style, { io, finish }: Shell): boolean => {
  if (problems.length === 0) return false;
  io.stderr.write(renderProblems('packs', withShownPaths(problems, io.cwd), style));
  finish(exitCodes.wrongInput);
  return true;
};

const loadAll = async (library: Library): Promise<LoadedPack[]> => {
  const shelves = [...(await library.shelves()).values()].flat();
  return Promise.all(shelves.map((shelf) => library.load(shelf)));
};

/** `cornerwise packs list`: every pack with its versions. */
export const listPacks = async (flags: PacksFlags, shell: Shell): Promise<void> => {
  const { library, style, problems } = await open(flags, shell);
  if (report(problems, style, shell)) return;
  const loads = await loadAll(library);
  shell.io.stdout.write(
    packList(
      loads.map(({ pack }) => pack).filter((pack) => pack !== null),
      style,
    ),
  );
  report(
    loads.flatMap((load) => load.problems),
    style,
    shell,
  );
};

/** The packs that references name, or null with the problems reported. */
const find = async (
  refs: readonly string[],
  opened: Opened,
  shell: Shell,
): Promise<readonly Pack[] | null> => {
  const resolved = await resolvePacks(
    refs.map((ref) => ({ ref, at: 0 })),
    opened.library,
  );
  const problems = [
    ...resolved.flaws.map(({ code, message, hint }) => wholeFile(code, message, hint)),
    ...resolved.problems,
  ];
  return report(problems, opened.style, shell) ? null : resolved.prepared.packs;
};

/** `cornerwise packs show`: what a pack holds. */
export const showPack = async (ref: string, flags: PacksFlags, shell: Shell): Promise<void> => {
  const opened = await open(flags, shell);
  if (report(opened.problems, opened.style, shell)) return;
  const packs = await find([ref], opened, shell);
  if (packs) shell.io.stdout.write(packs.map((pack) => packPage(pack, opened.style)).join('\n'));
};

/** Runs the proofs of one pack, and looks at what its suspects can come to at an hourly rate. */
const proveOne = (load: LoadedPack, others: ReadonlyMap<string, Pack>, rate: number, cwd: string): Proved => {
  const { pack, text, path } = load;
  const root = load.tree();
  const file = shownPath(path, cwd);
  if (!pack || !root) {
    return { name: path, file, results: [], gaps: [], suspects: null, problems: load.problems };
  }
  const { proofs, problems } = readProofs(text, path, root, pack, others);
  return {
    name: `${pack.id} ${pack.version}`,
    file,
    results: problems.length > 0 ? [] : proofs.map(runProof),
    gaps: coverage(pack, proofs).filter(({ fires, silent }) => !fires || !silent),
    suspects: proveSuspects(pack, rate),
    problems,
  };
};

/** `cornerwise packs prove`: whether packs do what they say. */
export const provePacks = async (refs: readonly string[], flags: PacksFlags, shell: Shell): Promise<void> => {
  const opened = await open(flags, shell);
  if (report(opened.problems, opened.style, shell)) return;
  let loads = await loadAll(opened.library);
  if (refs.length > 0) {
    const packs = await find(refs, opened, shell);
    if (!packs) return;
    loads = loads.filter(
      ({ pack }) => pack && packs.some(({ id, version }) => id === pack.id && version === pack.version),
    );
  }
  const others = new Map((await newestPacks(opened.library)).map((pack) => [pack.id, pack]));
  const rate = opened.shop?.labourRate ?? null;
  const proved = loads.map((load) => proveOne(load, others, rate ?? usualRate, shell.io.cwd));
  const money = { fromShop: rate !== null, currency: opened.shop?.currency ?? null };
  shell.io.stdout.write(proofReport(proved, money, opened.style));
  if (
    report(
      proved.flatMap(({ problems }) => problems),
      opened.style,
      shell,
    )
  )
    return;
  const failed = proved.some(
    ({ results, gaps, suspects }) =>
      gaps.length > 0 ||
      results.some(({ failures }) => failures.length > 0) ||
      (suspects !== null && hasFailed(suspects)),
  );
  shell.finish(failed ? exitCodes.found : exitCodes.clear);
};
