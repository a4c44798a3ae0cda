import { type Corner, corners } from '../../corner.ts';

/** The values that a group of evidence can have; the first is the one that a good vehicle shows. */
export const spaces = {
  out: ['within', 'out'],
  sides: ['within', 'low', 'high'],
  corners: ['none', ...corners, 'several'],
  axles: ['within', 'low', 'high', 'low-front', 'low-rear', 'high-front', 'high-rear'],
  pattern: [
    'none',
    ...corners,
    'spring-LF',
    'spring-RF',
    'spring-LR',
    'spring-RR',
    'electrical-together',
    'body-together',
    'side',
    'axle',
  ],
} as const;
export type SpaceName = keyof typeof spaces;

/** What a group can show: the values of a named space, or words of the group's own, the good one first. */
export interface Values {
  readonly space: SpaceName | 'words';
  readonly values: readonly string[];
}

/** The value that a good vehicle shows. */
export const neutralOf = ({ values }: Pick<Values, 'values'>): string => values[0] ?? '';

/** P(what was observed | value) for each value that it is possible under; values that are not named have 0. */
export type Weights = ReadonlyMap<string, number>;

/** The value for a spring at a corner that lost air: the whole plane tilts, that corner most. */
export const springAt = (corner: Corner): string => `spring-${corner}`;

const withinSeveral: readonly string[] = ['several', 'electrical-together', 'body-together', 'side', 'axle'];

/** What each kind of observation is in a space that is coarser or finer than its own. */
const alike: Readonly<Record<string, readonly string[]>> = {
  within: ['within', 'none'],
  none: ['none', 'within'],
  several: withinSeveral,
  low: ['low', 'low-front', 'low-rear'],
  high: ['high', 'high-front', 'high-rear'],
  // A corner that is off may be off alone, or most of a plane that tilts.
  ...Object.fromEntries(corners.map((corner) => [corner, [corner, springAt(corner)]])),
};

/** What a value of the patterns is where no pattern is known. */
const coarser = (value: string): string => {
  if (value.startsWith('spring-')) return value.slice('spring-'.length);
  return withinSeveral.includes(value) ? 'several' : value;
};

const translated = (value: string, values: readonly string[]): readonly string[] => {
  const own = (alike[value] ?? [value]).filter((one) => values.includes(one));
  if (own.length > 0) return own;
  if (values.includes(coarser(value))) return [coarser(value)];
  // Something is out, and nothing says which way or where.
  return values.slice(1);
};

/**
 * Weights over the values of one space as weights over another's: a value that the other space splits stands for
 * each of its parts, and parts that it joins add up, to 1 at most.
 *
 * @param exact true where the weights are already over these values, so that nothing is split
 */
export const inSpace = (weights: Weights, values: readonly string[], exact = false): Weights => {
  const found = new Map<string, number>();
  for (const [value, weight] of weights) {
    const parts = exact && values.includes(value) ? [value] : translated(value, values);
    for (const one of parts) found.set(one, Math.min(1, (found.get(one) ?? 0) + weight));
  }
  // In the space's own order, so that the order of findings leaves no trace.
  return new Map(values.flatMap((value) => (found.has(value) ? [[value, found.get(value) ?? 0]] : [])));
};
