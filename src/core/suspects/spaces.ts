import { corners } from '../corner.ts';

/** The values that a group of evidence can have; the first is the one that a good vehicle shows. */
export const spaces = {
  out: ['within', 'out'],
  sides: ['within', 'low', 'high'],
  corners: ['none', ...corners, 'several'],
  pattern: ['none', ...corners, 'electrical-together', 'body-together', 'side', 'axle'],
} as const;
export type SpaceName = keyof typeof spaces;

/** The value of a space that a good vehicle shows. */
export const neutralOf = (space: SpaceName): string => spaces[space][0];

/** P(what was observed | value) for each value that it is possible under; values that are not named have 0. */
export type Weights = ReadonlyMap<string, number>;

/** What each kind of observation is in a space that is coarser or finer than its own. */
const alike: Readonly<Record<string, readonly string[]>> = {
  within: ['within', 'none'],
  none: ['none', 'within'],
  several: ['several', 'electrical-together', 'body-together', 'side', 'axle'],
};

const translated = (value: string, space: SpaceName): readonly string[] => {
  const values: readonly string[] = spaces[space];
  const own = (alike[value] ?? [value]).filter((one) => values.includes(one));
  if (own.length > 0) return own;
  // Not all alike together, and no more is known in a space of corners.
  if (values.includes('several') && !corners.some((corner) => corner === value) && isTogether(value))
    return ['several'];
  // That something is out, with no word on which way or where.
  return values.slice(1);
};

const isTogether = (value: string): boolean => (spaces.pattern as readonly string[]).includes(value);

/**
 * Weights over the values of one space as weights over another's: a value that the other space splits stands for
 * each of its parts, and parts that it joins add up, to 1 at most.
 */
export const inSpace = (weights: Weights, space: SpaceName): Weights => {
  const found = new Map<string, number>();
  for (const [value, weight] of weights) {
    for (const one of translated(value, space)) found.set(one, Math.min(1, (found.get(one) ?? 0) + weight));
  }
  // In the space's own order, so that the order of findings leaves no trace.
  return new Map(
    spaces[space].flatMap((value) => (found.has(value) ? [[value, found.get(value) ?? 0]] : [])),
  );
};
