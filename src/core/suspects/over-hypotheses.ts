import type { Variant } from './hypotheses.ts';
import type { OutcomeTable } from './information.ts';

/**
 * A table over hypotheses from one over the ways in which each may be so: each way counts with its part.
 *
 * @param count of the hypotheses
 */
export const overHypotheses = (
  table: OutcomeTable,
  variants: readonly Pick<Variant, 'of' | 'part'>[],
  count: number,
): OutcomeTable =>
  table.map((row) => {
    const sums = new Array<number>(count).fill(0);
    for (const [place, { of, part }] of variants.entries())
      sums[of] = (sums[of] ?? 0) + part * (row[place] ?? 0);
    return sums;
  });
