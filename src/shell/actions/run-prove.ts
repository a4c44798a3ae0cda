import type { Pack } from '../../core/pack.ts';
import { runProof } from '../../core/proofs/prove.ts';
import { proveChecks, provePack } from '../../core/proofs/prove-pack.ts';
import { hasFailed, proveSuspects, usualRate } from '../../core/suspects/proof/prove-suspects.ts';
import { placeGaps } from '../../input/pack/gap-places.ts';
import { readProofs } from '../../input/pack/read-proofs.ts';
import { failedOf, type Proved, proofReport } from '../../report/proofs.ts';
import { type EarlierVersions, earlierVersions } from '../earlier-versions.ts';
import { type LoadedPack, newestPacks } from '../library.ts';
import { exitCodes, type Shell } from '../shell.ts';
import { shownPath } from '../shown-path.ts';
import { findPacks, loadAll, openPacks, type PacksFlags, reportProblems } from './run-packs.ts';

/** What a pack is proved with, beside its own file. */
interface Surroundings {
  /** The newest version of each pack, by its id. */
  readonly others: ReadonlyMap<string, Pack>;
  readonly earlier: EarlierVersions;
  /** An hour of work. */
  readonly rate: number;
  readonly cwd: string;
}

const nothing = { results: [], excused: [], moved: null, gaps: [], suspects: null } as const;

/** Runs the proofs of one pack, looks at what they leave open, and at what its suspects can come to. */
const proveOne = (load: LoadedPack, { others, earlier, rate, cwd }: Surroundings): Proved => {
  const { pack, text, path } = load;
  const root = load.tree();
  const file = shownPath(path, cwd);
  if (!pack || !root) return { ...nothing, name: path, file, problems: load.problems };
  const name = `${pack.id} ${pack.version}`;
  const { proofs, problems } = readProofs(text, path, root, pack, others);
  if (problems.length > 0) return { ...nothing, name, file, problems };
  const excused = earlier.excusedOf(pack);
  const { moved, gaps } = excused ? proveChecks(pack, proofs) : provePack(pack, proofs, [...others.values()]);
  return {
    name,
    file,
    results: proofs.map(runProof),
    excused: excused ?? [],
    moved,
    gaps: placeGaps(text, root, gaps),
    suspects: proveSuspects(pack, rate),
    problems,
  };
};

/** `cornerwise packs prove`: whether packs do what they say, and whether their proofs show all of it. */
export const provePacks = async (refs: readonly string[], flags: PacksFlags, shell: Shell): Promise<void> => {
  const opened = await openPacks(flags, shell);
  const { library, shop, style } = opened;
  if (reportProblems(opened.problems, style, shell)) return;
  let loads = await loadAll(library);
  if (refs.length > 0) {
    const packs = await findPacks(refs, opened, shell);
    if (!packs) return;
    loads = loads.filter(
      ({ pack }) => pack && packs.some(({ id, version }) => id === pack.id && version === pack.version),
    );
  }
  const rate = shop?.labourRate ?? null;
  const surroundings: Surroundings = {
    others: new Map((await newestPacks(library)).map((pack) => [pack.id, pack])),
    earlier: earlierVersions(),
    rate: rate ?? usualRate,
    cwd: shell.io.cwd,
  };
  const proved = loads.map((load) => proveOne(load, surroundings));
  const money = { fromShop: rate !== null, currency: shop?.currency ?? null };
  shell.io.stdout.write(proofReport(proved, money, style));
  const problems = proved.flatMap((one) => one.problems);
  if (reportProblems(problems, style, shell)) return;
  const failed = proved.some(
    (one) =>
      one.gaps.length > 0 || failedOf(one).length > 0 || (one.suspects !== null && hasFailed(one.suspects)),
  );
  shell.finish(failed || proved.length === 0 ? exitCodes.found : exitCodes.clear);
};
