import { type Corner, corners } from '../corner.ts';

/** The value of a pattern as over the spring of a corner. */
export const springAt = (corner: Corner): `spring-${Corner}` => `spring-${corner}`;

const together = ['electrical-together', 'body-together', 'side', 'axle'] as const;

/** The values that a group of evidence can have; the first is the one that a good vehicle shows. */
export const spaces = {
  out: ['within', 'out'],
  sides: ['within', 'low', 'high'],
  corners: ['none', ...corners, 'several'],
  pattern: ['none', ...corners, ...corners.map(springAt), ...together],
  /** Where nothing tells a spring from its corner: both are the corner. */
  'corner-pattern': ['none', ...corners, ...together],
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
  several: ['several', ...together],
};

const springOf = new Map<string, Corner>(corners.map((corner) => [springAt(corner), corner]));

const translated = (value: string, space: SpaceName, tellsSprings: boolean): readonly string[] => {
  const values: readonly string[] = spaces[space];
  const known = alike[value] ?? [value];
  // A corner by itself may be off as a signal alone is, or as over its spring.
  const corner = tellsSprings ? undefined : corners.find((one) => one === value);
  const own = (corner === undefined ? known : [corner, springAt(corner)]).filter((one) =>
    values.includes(one),
  );
  if (own.length > 0) return own;
  const ofSpring = springOf.get(value);
  if (ofSpring !== undefined && values.includes(ofSpring)) return [ofSpring];
  // Not all alike together, and no more is known in a space of corners.
  if (values.includes('several') && isTogether(value)) return ['several'];
  // That something is out, with no word on which way or where.
  return values.slice(1);
};

const isTogether = (value: string): boolean => together.some((one) => one === value);

/**
 * What of the weights a space has a use for. Where it has no springs, and any spring is as likely as another, they tell
 * nothing of a corner: then the others share the whole, as if no spring had been asked for.
 */
const useful = (weights: Weights, space: SpaceName): Weights => {
  const springs = [...weights].filter(([value]) => springOf.has(value));
  const values: readonly string[] = spaces[space];
  if (springs.length < 2 || springs.some(([value]) => values.includes(value))) return weights;
  const rest = 1 - springs.reduce((sum, [, weight]) => sum + weight, 0);
  return new Map(
    [...weights].flatMap(([value, weight]) =>
      springOf.has(value) || rest <= 0 ? [] : [[value, weight / rest]],
    ),
  );
};

/**
 * Weights over the values of one space as weights over another's: a value that the other space splits stands for
 * each of its parts, and parts that it joins add up, to 1 at most. Of a corner and its spring, where they are joined, the
 * likelier stands for both: they are two ways for one corner to be off, and which of them is not asked.
 */
export const inSpace = (weights: Weights, space: SpaceName): Weights => {
  const found = new Map<string, number>();
  const tellsSprings = [...weights.keys()].some((value) => springOf.has(value));
  for (const [value, weight] of useful(weights, space)) {
    for (const one of translated(value, space, tellsSprings)) {
      const before = found.get(one) ?? 0;
      const eitherWay = tellsSprings && corners.some((corner) => corner === one);
      const joined = eitherWay ? Math.max(before, weight) : before + weight;
      found.set(one, Math.min(1, joined));
    }
  }
  // In the space's own order, so that the order of findings leaves no trace.
  return new Map(
    spaces[space].flatMap((value) => (found.has(value) ? [[value, found.get(value) ?? 0]] : [])),
  );
};
