import { type Instrument, usualOffset } from './instruments.ts';
import type { TypedValue } from './parse-quantity.ts';
import { mean, rectangular, resolutionUncertainty, standardDeviation } from './statistics.ts';
import { convertSpan, type QuantityKind, quantityOf, type UnitName } from './units.ts';

/** A reading as a quantity: its value and the parts of its uncertainty, kept apart so that they can cancel. */
export interface Estimate {
  readonly value: number;
  readonly unit: UnitName;
  /** Standard uncertainty from resolution or from repeats, whichever is larger; independent from reading to reading. */
  readonly scatter: number;
  /** Which of the two `scatter` is. */
  readonly scatterFrom: 'resolution' | 'repeats';
  readonly instrument: string;
  /** Half-width of the instrument's fixed error. */
  readonly offset: number;
  /**
   * What the fixed error belongs to: the instrument's name where it is common to all that it reads, the channel's key
   * where each channel has its own, null where no other reading shares it.
   */
  readonly offsetOf: string | null;
  /** Half-width of the instrument's scale error as a fraction, common to all that it reads. */
  readonly gain: number;
}

/** What the fixed error of a reading belongs to; a length of its own is laid anew, so that not even its place has one. */
const offsetOwner = (
  { name, offset = usualOffset(name) }: Instrument,
  quantity: QuantityKind,
  channel: string | null,
): string | null => {
  if (offset === 'common') return name;
  return quantity === 'length' ? null : channel;
};

/**
 * The estimate behind the values typed for one reading (one value, or repeats).
 * Mean; the larger of d/√12 and s/√n (methods of JCGM 100:2008, F.2.2.1 and 4.2.3); never both.
 *
 * @param channel the key of the channel that was read; null where it is no channel
 */
export const estimate = (
  values: readonly TypedValue[],
  unit: UnitName,
  instrument: Instrument,
  channel: string | null = null,
): Estimate => {
  const shows = instrument.shows;
  const known = shows !== null && quantityOf(shows.unit) === quantityOf(unit);
  let place = known ? convertSpan(shows.value, shows.unit, unit) : Number.NEGATIVE_INFINITY;
  if (!known) for (const { resolution } of values) place = Math.max(place, resolution);
  const fromResolution = resolutionUncertainty(place);
  const [first] = values;
  if (first === undefined) throw new Error('a reading without a value');
  const repeats = values.length > 1 ? values.map(({ value }) => value) : null;
  const fromRepeats = repeats === null ? 0 : standardDeviation(repeats) / Math.sqrt(repeats.length);
  const measures = quantityOf(unit);
  const accuracy = instrument.accuracy.find(({ quantity }) => quantity === measures);
  return {
    value: repeats === null ? first.value : mean(repeats),
    unit,
    scatter: Math.max(fromResolution, fromRepeats),
    scatterFrom: fromRepeats > fromResolution ? 'repeats' : 'resolution',
    instrument: instrument.name,
    offset: accuracy ? convertSpan(accuracy.fixed, accuracy.unit, unit) : 0,
    offsetOf: offsetOwner(instrument, measures, channel),
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
  readonly perReading?: { readonly sensitivity: number; readonly unit: UnitName } | undefined;
  /** The part of `accuracy` that no instrument of this reading has: an uncertain temperature, a table's own band. */
  readonly besides?: { readonly standard: number; readonly from: 'temperature' | 'table' } | undefined;
  /** The inputs that it was propagated from, so that whoever reads it can do the sum again. */
  readonly terms?: readonly Term[] | undefined;
  /** The standard uncertainty that `accuracy` has beside that of the terms, whatever brings it in. */
  readonly beside?: number | undefined;
  /** The points of a straight line, where it is of a slope. */
  readonly line?: readonly LinePoint[] | undefined;
}

/** A point of a straight line: its time, in the unit of the slope, with its standard uncertainty, and its value. */
export interface LinePoint {
  readonly time: number;
  readonly clock: number;
  readonly value: number;
}

/** Square of what the errors of one instrument do to the result: its fixed errors, each with all that share it, and its scale. */
const accuracySquare = (instrument: string, terms: readonly Term[]): number => {
  const shared = new Map<string, number>();
  let squares = 0;
  let gain = 0;
  for (const { estimate: input, sensitivity } of terms) {
    if (input.instrument !== instrument) continue;
    gain += sensitivity * input.gain * input.value;
    const offset = sensitivity * input.offset;
    if (input.offsetOf === null) squares += offset * offset;
    else shared.set(input.offsetOf, (shared.get(input.offsetOf) ?? 0) + offset);
  }
  for (const offset of shared.values()) squares += offset * offset;
  const standard = rectangular(Math.sqrt(squares) + Math.abs(gain));
  return standard * standard;
};

/**
 * First-order propagation (JCGM 100:2008, 5.1.2 and, for the common errors, 5.2.2).
 * Readings that share a fixed error of their instrument carry it as one offset with its signed sensitivity; fixed errors
 * that they do not share are independent. The percentage is one common gain of all that the instrument reads. Their
 * half-widths then add, as they do in a single reading.
 */
export const combine = (terms: readonly Term[]): Spread => {
  let scatterSquares = 0;
  let sensitivitySquares = 0;
  let accuracySquares = 0;
  const instruments: string[] = [];
  for (const { estimate: input, sensitivity } of terms) {
    const own = sensitivity * input.scatter;
    scatterSquares += own * own;
    sensitivitySquares += sensitivity * sensitivity;
    if (instruments.includes(input.instrument)) continue;
    instruments.push(input.instrument);
    accuracySquares += accuracySquare(input.instrument, terms);
  }
  const scatter = Math.sqrt(scatterSquares);
  const accuracy = Math.sqrt(accuracySquares);
  const total = Math.sqrt(scatter * scatter + accuracy * accuracy);
  const unit = terms[0]?.estimate.unit;
  if (!unit) return { scatter, accuracy, total };
  const perReading = { sensitivity: Math.sqrt(sensitivitySquares), unit };
  return { scatter, accuracy, total, perReading, terms };
};

/** The spread of a quantity that is one reading as it stands. */
export const spreadOfOne = (estimate: Estimate): Spread => {
  const { scatter, offset, gain, value, unit } = estimate;
  const accuracy = rectangular(Math.abs(offset) + Math.abs(gain * value));
  const total = Math.sqrt(scatter * scatter + accuracy * accuracy);
  return {
    scatter,
    accuracy,
    total,
    perReading: { sensitivity: 1, unit },
    terms: [{ estimate, sensitivity: 1 }],
  };
};
