import type { Instrument } from './instruments.ts';
import type { TypedValue } from './parse-quantity.ts';
import { mean, rectangular, resolutionUncertainty, rootSumSquares, standardDeviation } from './statistics.ts';
import { convertSpan, quantityOf, type UnitName } from './units.ts';

/** A reading as a quantity: its value and the parts of its uncertainty, kept apart so that they can cancel. */
export interface Estimate {
  readonly value: number;
  readonly unit: UnitName;
  /** Standard uncertainty from resolution or from repeats, whichever is larger; independent from reading to reading. */
  readonly scatter: number;
  /** Which of the two `scatter` is. */
  readonly scatterFrom: 'resolution' | 'repeats';
  readonly instrument: string;
  /** Half-width of the instrument's fixed error, common to all that it reads. */
  readonly offset: number;
  /** Half-width of the instrument's scale error as a fraction, common to all that it reads. */
  readonly gain: number;
}

/**
 * The estimate behind the values typed for one reading (one value, or repeats).
 * Mean; the larger of d/√12 and s/√n (methods of JCGM 100:2008, F.2.2.1 and 4.2.3); never both.
 */
export const estimate = (values: readonly TypedValue[], unit: UnitName, instrument: Instrument): Estimate => {
  const numbers = values.map(({ value }) => value);
  const shows = instrument.shows;
  const known = shows !== null && quantityOf(shows.unit) === quantityOf(unit);
  const place = known
    ? convertSpan(shows.value, shows.unit, unit)
    : Math.max(...values.map(({ resolution }) => resolution));
  const fromResolution = resolutionUncertainty(place);
  const fromRepeats = numbers.length < 2 ? 0 : standardDeviation(numbers) / Math.sqrt(numbers.length);
  const accuracy = instrument.accuracy.find(({ quantity }) => quantity === quantityOf(unit));
  return {
    value: mean(numbers),
    unit,
    scatter: Math.max(fromResolution, fromRepeats),
    scatterFrom: fromRepeats > fromResolution ? 'repeats' : 'resolution',
    instrument: instrument.name,
    offset: accuracy ? convertSpan(accuracy.fixed, accuracy.unit, unit) : 0,
    gain: accuracy?.gain ?? 0,
  };
};

/** One input of a computed quantity, with the derivative of the result by it. */
export interface Term {
  readonly estimate: Estimate;
  readonly sensitivity: number;
}

/** The standard uncertainty of a computed quantity, split by what could be done about it. */
export interface Spread {
  readonly scatter: number;
  readonly accuracy: number;
  readonly total: number;
  /** What the last digit of the readings does to the result, where that is not one to one. */
  readonly perReading?: { readonly sensitivity: number; readonly unit: UnitName };
  /** The part of `accuracy` that no instrument of this reading has: an uncertain temperature, a table's own band. */
  readonly besides?: { readonly standard: number; readonly from: 'temperature' | 'table' };
}

/**
 * First-order propagation (JCGM 100:2008, 5.1.2 and, for the common errors, 5.2.2).
 * Readings through one instrument share its errors: the fixed part is one common offset and the percentage one
 * common gain, each carried with its signed sensitivity; their half-widths then add, as they do in a single reading.
 */
export const combine = (terms: readonly Term[]): Spread => {
  const scatter = rootSumSquares(terms.map((term) => term.sensitivity * term.estimate.scatter));
  const offsets = new Map<string, number>();
  const gains = new Map<string, number>();
  for (const { estimate: input, sensitivity } of terms) {
    offsets.set(input.instrument, (offsets.get(input.instrument) ?? 0) + sensitivity * input.offset);
    gains.set(input.instrument, (gains.get(input.instrument) ?? 0) + sensitivity * input.gain * input.value);
  }
  const accuracy = rootSumSquares(
    [...offsets].map(([name, offset]) => rectangular(Math.abs(offset) + Math.abs(gains.get(name) ?? 0))),
  );
  const unit = terms[0]?.estimate.unit;
  const sensitivity = rootSumSquares(terms.map((term) => term.sensitivity));
  return {
    scatter,
    accuracy,
    total: rootSumSquares([scatter, accuracy]),
    ...(unit && { perReading: { sensitivity, unit } }),
  };
};
