import type { OutcomeTable } from '../information.ts';
import { normalised } from '../posterior.ts';

/**
 * Bhattacharyya's coefficient of two distributions over the same values: ρ = Σ √(p·q), from 0 where they have nothing
 * in common to 1 where they are the same. Over independent observations it is the product of each one's. Source:
 * A. Bhattacharyya, On a measure of divergence between two statistical populations (1943), from memory.
 *
 * @param p weights, not negative, scaled here to sum to 1
 * @param q weights of the same values in the same order
 */
export const overlap = (p: readonly number[], q: readonly number[]): number => {
  const other = normalised(q);
  return normalised(p).reduce((sum, one, place) => sum + Math.sqrt(one * (other[place] ?? 0)), 0);
};

/** The overlap of two hypotheses in all that some tables can show, one independent observation a table. */
export const overlapIn = (tables: readonly OutcomeTable[], one: number, other: number): number => {
  const column = (table: OutcomeTable, place: number): number[] => table.map((row) => row[place] ?? 0);
  return tables.reduce((all, table) => all * overlap(column(table, one), column(table, other)), 1);
};

/**
 * How often, at least, the likelier of two is the wrong one when each is at fault as often as the other: no rule that
 * sees only the observations is wrong less often than ½·(1 − √(1 − ρ²)), nor has the best one to be wrong more often
 * than ½·ρ. Source: T. Kailath, The divergence and Bhattacharyya distance measures in signal selection (1967), from
 * memory.
 */
export const leastError = (rho: number): number => (1 - Math.sqrt(Math.max(0, 1 - rho * rho))) / 2;
