import { didYouMean } from '../suggest.ts';

const packOf = (check: string): string => check.split('/')[0] ?? '';

/**
 * What to write instead of the name of a check that no pack of the job has.
 *
 * @param typed the name as typed, `pack/check`
 * @param known the checks that could be meant here
 * @param inPacks every check of the job's packs
 */
export const checkHint = (
  typed: string,
  known: readonly string[],
  inPacks: readonly string[],
): string | null => {
  const example = known[0] ?? inPacks[0];
  const pack = packOf(typed);
  const elsewhere = typed.includes('/') && !inPacks.some((check) => packOf(check) === pack);
  const otherwise =
    example === undefined
      ? "add the pack of this check to the job's packs"
      : `name a check of the job's packs, such as ${example}`;
  const addIt = `add ${pack}@1 to packs, or name a check of the packs in use`;
  return didYouMean(typed, known, elsewhere ? addIt : otherwise);
};
