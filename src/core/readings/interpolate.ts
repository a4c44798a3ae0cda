export interface Interpolated {
  readonly value: number;
  /** Mean slope over x ± its standard uncertainty, so that a corner or an end of the table is not taken for flat. */
  readonly slope: number;
  /** Which end of the table was reached or passed, if any. */
  readonly end: 'low' | 'high' | null;
}

export type Points = readonly (readonly [number, number])[];

const valueAt = (points: Points, x: number): Omit<Interpolated, 'slope'> => {
  const first = points[0];
  const last = points.at(-1);
  if (!first || !last) throw new Error('a table without points');
  if (x <= first[0]) return { value: first[1], end: 'low' };
  if (x >= last[0]) return { value: last[1], end: 'high' };
  const upper = points.findIndex(([at]) => at > x);
  const [x0, y0] = points[upper - 1] ?? first;
  const [x1, y1] = points[upper] ?? last;
  return { value: y0 + ((y1 - y0) / (x1 - x0)) * (x - x0), end: null };
};

/**
 * Straight lines between points sorted by x (at least one); beyond the ends the end value holds, and it is said.
 *
 * @param standard standard uncertainty of x, over which the slope is taken
 */
export const interpolate = (points: Points, x: number, standard = 0): Interpolated => {
  const step = Math.max(standard, 1e-9);
  const rise = valueAt(points, x + step).value - valueAt(points, x - step).value;
  const { value, end } = valueAt(points, x);
  return { value, slope: rise / (2 * step), end };
};
