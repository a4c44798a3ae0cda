import { combine, type Estimate, type LinePoint, type Spread, type Term } from './estimate.ts';
import { fitLine } from './line-fit.ts';
import { rectangular, rootSumSquares } from './statistics.ts';
import { studentFactor, usualFactor } from './student.ts';

/** One point of a trend. */
export interface TrendPoint extends LinePoint {
  /** The readings behind `value`, with its derivative by each; an empty list is an exact value. */
  readonly terms: readonly Term[];
}

export interface Trend {
  /** Units of value for one unit of time. */
  readonly slope: number;
  /** From the first point to the last. */
  readonly span: number;
  readonly count: number;
  readonly spread: Spread;
  /** Coverage factor of `spread.total`, for about 95 %. */
  readonly factor: number;
  /** The part of the expanded uncertainty that more time or more points would lessen. */
  readonly expandedScatter: number;
  /** Standard error of the slope where the points' scatter about the line says more than the readings' own. */
  readonly slopeError: number | null;
}

/** A fixed error that no other reading shares, as a tape's that is laid anew each time, is scatter about the line. */
const aboutTheLine = (estimate: Estimate): Estimate =>
  estimate.offsetOf === null && estimate.offset > 0
    ? { ...estimate, scatter: rootSumSquares([estimate.scatter, rectangular(estimate.offset)]), offset: 0 }
    : estimate;

/**
 * The slope of a straight line through the points, with its uncertainty. The scatter is the larger of two, never both:
 * what the readings and the clock leave open (JCGM 100:2008, 5.1.2, with dslope/dy = (x − x̄)/Σ(x − x̄)²), and the
 * standard error of the fit with Student's factor for n − 2 (NIST/SEMATECH e-Handbook, 4.4.3.1; JCGM 100:2008, G.3).
 * A fixed error that the points share cancels, since those derivatives add up to zero; a scale error does not.
 *
 * @param points two or more, of which not all are of one time
 * @param besides a standard uncertainty of the slope that no reading of these brings in
 */
export const trendOf = (points: readonly TrendPoint[], besides?: Spread['besides']): Trend => {
  const times = points.map(({ time }) => time);
  const line = fitLine(
    times,
    points.map(({ value }) => value),
  );
  const centre = times.reduce((sum, time) => sum + time, 0) / times.length;
  const weight = (time: number): number => (time - centre) / line.sxx;
  const readings = combine(
    points.flatMap(({ time, terms }) =>
      terms.map(({ estimate, sensitivity }) => ({
        estimate: aboutTheLine(estimate),
        sensitivity: sensitivity * weight(time),
      })),
    ),
  );
  const fromClock = rootSumSquares(points.map(({ time, clock }) => line.slope * weight(time) * clock));
  const propagated = rootSumSquares([readings.scatter, fromClock]);
  const fitted = line.slopeError ?? 0;
  const student = studentFactor(Math.max(1, points.length - 2));
  const byFit = student * fitted > 2 * propagated;
  const scatter = byFit ? fitted : propagated;
  const accuracy = rootSumSquares([readings.accuracy, besides?.standard ?? 0]);
  const total = rootSumSquares([scatter, accuracy]);
  const expandedScatter = (byFit ? student : 2) * scatter;
  return {
    slope: line.slope,
    span: Math.max(...times) - Math.min(...times),
    count: points.length,
    spread: {
      scatter,
      accuracy,
      total,
      ...(besides && { besides }),
      terms: readings.terms,
      beside: besides?.standard ?? 0,
      line: points,
    },
    // Student's factor is for the scatter alone; what the instrument brings in is covered by the usual 2.
    factor: Math.max(usualFactor, total > 0 ? rootSumSquares([expandedScatter, 2 * accuracy]) / total : 0),
    expandedScatter,
    slopeError: byFit ? fitted : null,
  };
};
