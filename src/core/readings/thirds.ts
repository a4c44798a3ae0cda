import { normalCdf } from './normal.ts';

/** A value with its standard uncertainty. */
export interface Uncertain {
  readonly value: number;
  readonly standard: number;
}

/** The chances that a quantity lies below one limit, between the two, and above the other; they add up to one. */
export interface Thirds {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** The chance that a quantity lies below a limit: Φ((L − x)/u). At the limit itself an exact value does not. */
export const chanceBelow = ({ value, standard }: Uncertain, limit: number): number => {
  if (standard > 0) return normalCdf((limit - value) / standard);
  // Differences of typed decimals miss their limit by rounding.
  return value < limit - 1e-9 ? 1 : 0;
};

/** The chance that a quantity lies above a limit. */
export const chanceAbove = ({ value, standard }: Uncertain, limit: number): number =>
  chanceBelow({ value: -value, standard }, -limit);

/** Where a quantity lies among −limit and +limit. */
export const thirdsOf = (quantity: Uncertain, limit: number): Thirds => {
  const low = chanceBelow(quantity, -limit);
  const high = chanceAbove(quantity, limit);
  return { low, middle: Math.max(0, 1 - low - high), high };
};

/** The word with the largest weight; of equals the first. */
export const likeliest = <Word extends string>(weights: Readonly<Record<Word, number>>): Word => {
  const [first, ...rest] = Object.entries(weights) as [Word, number][];
  if (!first) throw new Error('no words to choose from');
  return rest.reduce((best, one) => (one[1] > best[1] ? one : best), first)[0];
};
