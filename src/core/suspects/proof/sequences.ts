import type { Fact } from './attainable.ts';
import type { Option } from './pieces.ts';

/** Facts of which one each must be on record in the end. */
export type Wanted = readonly (readonly Fact[])[];

// Plain loops: the search spends its time in these two.
export const times = (one: readonly number[], other: readonly number[]): number[] => {
  const product = new Array<number>(one.length);
  for (let place = 0; place < one.length; place += 1)
    product[place] = (one[place] ?? 0) * (other[place] ?? 1);
  return product;
};

/** Σ a·b: what the odds come to in all once each is multiplied by its ratio. */
export const totalAfter = (odds: readonly number[], ratios: readonly number[]): number => {
  let total = 0;
  for (let place = 0; place < odds.length; place += 1) total += (odds[place] ?? 0) * (ratios[place] ?? 1);
  return total;
};

export const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** Odds of each rival once some options have come true. */
export const oddsAfter = (odds: readonly number[], options: readonly Option[]): readonly number[] =>
  options.reduce<readonly number[]>((all, { ratios }) => times(all, ratios), odds);

/** Whether something was read that is out, which a ranking begins with. */
export const isOut = ({ steps }: Option): boolean => steps.some(({ out }) => out);

/** The facts of some options in an order in which each comes after what it wants; null where there is none. */
export const inOrder = (options: readonly Option[]): Fact[] | null => {
  const waiting = new Set(options.flatMap(({ steps }) => steps));
  const done: Fact[] = [];
  let before = -1;
  while (done.length > before) {
    before = done.length;
    for (const step of waiting) {
      if (!step.wants.every((any) => any.some((fact) => done.includes(fact)))) continue;
      waiting.delete(step);
      done.push(step.fact);
    }
  }
  return waiting.size === 0 ? done : null;
};

/** Whether some options can come true together, lead to a ranking, and leave on record what must be. */
export const canHappen = (options: readonly Option[], must: Wanted): boolean => {
  const facts = inOrder(options);
  return (
    facts !== null && options.some(isOut) && must.every((any) => any.some((fact) => facts.includes(fact)))
  );
};

/** The options without those that are not needed to stay below some odds; what tells least is left out first. */
export const shortened = (
  options: readonly Option[],
  odds: readonly number[],
  limit: number,
  must: Wanted,
): readonly Option[] => {
  const telling = options.filter(({ steps }) => steps.length > 0);
  const weakest = [...telling].sort((a, b) => totalAfter(odds, b.ratios) - totalAfter(odds, a.ratios));
  const kept = weakest.reduce<readonly Option[]>((left, option) => {
    const fewer = left.filter((one) => one !== option);
    return sum(oddsAfter(odds, fewer)) < limit && canHappen(fewer, must) ? fewer : left;
  }, telling);
  // What something else hung on may be needless once that is gone.
  return kept.length < telling.length ? shortened(kept, odds, limit, must) : kept;
};
