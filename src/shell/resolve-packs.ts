import type { Pack } from '../core/pack.ts';
import { preparePacks } from '../core/prepare/prepared-packs.ts';
import { isRange, newestIn, splitRef } from '../input/pack/pick-version.ts';
import type { LocatedFlaw, Problem } from '../input/problem.ts';
import { quoted } from '../input/quoted.ts';
import { didYouMean } from '../input/suggest.ts';
import type { Library } from './library.ts';
import type { ReplacedPack, ResolvedPacks } from './resolved-packs.ts';

type Refs = readonly { readonly ref: string; readonly at: number }[];

/**
 * Finds the packs that references (`id@range`) name, of the versions in range the newest, and prepares them. A library
 * keeps what references with nothing wrong led to, so that jobs that name the same packs share it.
 */
export const resolvePacks = async (refs: Refs, library: Library): Promise<ResolvedPacks> => {
  const key = JSON.stringify(refs.map(({ ref }) => ref));
  const known = library.resolved.get(key);
  if (known) return known;
  const { packs, ...found } = await searchPacks(refs, library);
  const resolved = { ...found, prepared: preparePacks(packs, library.ahead) };
  if (resolved.flaws.length + resolved.problems.length === 0) library.resolved.set(key, resolved);
  return resolved;
};

/** What references lead to, without preparing it: enough to tell whether something is wrong. */
export const searchPacks = async (
  refs: Refs,
  library: Library,
): Promise<Omit<ResolvedPacks, 'prepared'> & { readonly packs: readonly Pack[] }> => {
  const shelves = await library.shelves();
  const packs: Pack[] = [];
  const replaced: ReplacedPack[] = [];
  const flaws: LocatedFlaw[] = [];
  const problems: Problem[] = [];
  for (const { ref, at } of refs) {
    const { id, range } = splitRef(ref);
    const found = shelves.get(id);
    if (!found) {
      const known = [...shelves.keys()];
      const hint = didYouMean(id, known, `there are ${known.join(', ')}`);
      flaws.push({ code: 'unknown-pack', at, message: `no pack is called ${quoted(id)}`, hint });
      continue;
    }
    const versions = found.map(({ version }) => version);
    const version = isRange(range) ? newestIn(range, versions) : null;
    const shelf = found.find((one) => one.version === version);
    if (!shelf) {
      const message = isRange(range)
        ? `no version of ${id} fits ${quoted(range)}`
        : `${quoted(range)} is not a version of ${id}`;
      flaws.push({
        code: 'unknown-pack-version',
        at,
        message,
        hint: `there ${versions.length > 1 ? 'are' : 'is'} ${versions.join(', ')}; write ${id}@${versions[0]}`,
      });
      continue;
    }
    if (packs.some((pack) => pack.id === id)) {
      flaws.push({ code: 'duplicate-id', at, message: `${id} is named twice`, hint: 'keep one of them' });
      continue;
    }
    const loaded = await library.load(shelf);
    problems.push(...loaded.problems);
    if (loaded.pack) packs.push(loaded.pack);
    if (loaded.replaced) replaced.push(shelf);
  }
  return { packs, replaced, flaws, problems };
};
