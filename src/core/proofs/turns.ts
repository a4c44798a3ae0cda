/** A stretch of a quantity, its two ends. */
export type Stretch = readonly [number, number];

/** What is said at a value. */
export type Says = (value: number) => string;

/** The last value at which it is said as at the first end, and the first at which it is not, by halving. */
const turn = (says: Says, from: number, to: number): Stretch => {
  const first = says(from);
  let [near, far] = [from, to];
  for (let step = 0; step < 30 && Math.abs(far - near) > 1e-6 * Math.max(1, Math.abs(near)); step += 1) {
    const middle = (near + far) / 2;
    if (says(middle) === first) near = middle;
    else far = middle;
  }
  return [near, far];
};

/** The stretch beside a turn of one in which the other says otherwise; null where both turn at the same place. */
const stretchAt = (says: Says, other: Says, from: number, to: number): Stretch | null => {
  const [near, far] = turn(says, from, to);
  if (other(near) !== says(near))
    return other(from) === says(from) ? [turn(other, from, near)[1], near] : [from, near];
  if (other(far) === says(far)) return null;
  return other(to) === says(to) ? [far, turn(other, to, far)[1]] : [far, to];
};

/** Distances from a value at which to look, the nearest first, up to six times its own size. */
const distances = (value: number): number[] =>
  Array.from({ length: 9 }, (_, index) => (Math.max(1, Math.abs(value)) * 3 ** index) / 1024);

/**
 * Stretches in which two say different things, beside the places where the first says something else than before, looked
 * for upwards and downwards of a value. Lazy, so that whoever has found what he wants asks no further.
 */
export function* turnsBetween(says: Says, other: Says, around: number): Generator<Stretch> {
  const here = says(around);
  for (const way of [-1, 1]) {
    let from = around;
    let said = here;
    for (const distance of distances(around)) {
      const to = around + way * distance;
      const next = says(to);
      const stretch = said === next ? null : stretchAt(says, other, from, to);
      if (stretch) yield stretch;
      from = to;
      said = next;
    }
  }
}
