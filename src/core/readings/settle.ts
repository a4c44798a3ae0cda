import type { Spread } from './estimate.ts';
import type { UnitName } from './units.ts';
import { type Limits, margin } from './verdict.ts';

/** What would turn a too-close finding into a verdict. Figures are in `unit`, that of the readings behind the result. */
export type Settle =
  | { readonly how: 'finer-reading'; readonly placeValue: number; readonly unit: UnitName | null }
  | { readonly how: 'repeat'; readonly times: number }
  | {
      readonly how: 'better-instrument';
      readonly halfWidth: number;
      /** The last digit that it must show as well; null where the one typed will do. */
      readonly placeValue: number | null;
      readonly unit: UnitName | null;
    }
  /** The limits are closer together than the instrument can tell apart. */
  | { readonly how: 'instrument-too-coarse'; readonly halfWidth: number; readonly unit: UnitName | null }
  /** What is not known of the temperature hides the rest. */
  | { readonly how: 'read-temperature' }
  /** The published figures themselves are no finer. */
  | { readonly how: 'table-too-coarse' }
  | { readonly how: 'on-the-limit' };

/** One significant digit, rounded down, so that the advice is enough. */
const roundDown = (value: number): number => {
  if (value <= 0) return 0;
  const decade = 10 ** Math.floor(Math.log10(value));
  return Math.floor(value / decade + 1e-9) * decade;
};

/** The share of the room that an instrument may take, so that something is left for its last digit. */
const instrumentShare = 0.9;

/** Repeats that somebody might still take. */
const manyRepeats = 30;

/** The decade at or below a place value. */
const decade = (place: number): number => 10 ** Math.floor(Math.log10(place) + 1e-9);

/** What the remedies below work with: standard uncertainties in the unit of the result. */
interface Situation {
  readonly scatter: number;
  readonly accuracy: number;
  /** What U/2 must come down to. */
  readonly target: number;
  readonly scatterFrom: 'resolution' | 'repeats';
  readonly count: number;
  readonly unit: UnitName | null;
  readonly sensitivity: number;
}

/** The part of the accuracy that no instrument can win back, where it is the greater one. */
const beyondInstrument = ({ accuracy, besides }: Spread): Settle | null =>
  besides && besides.standard > accuracy / Math.SQRT2
    ? { how: besides.from === 'temperature' ? 'read-temperature' : 'table-too-coarse' }
    : null;

/** Reading finer or more often, where the accuracy leaves room for it. */
const lessScatter = (situation: Situation): Settle | null => {
  const { target, scatter, accuracy, scatterFrom, count, unit, sensitivity } = situation;
  if (accuracy >= target * 0.95) return null;
  const left = Math.sqrt(target ** 2 - accuracy ** 2);
  if (scatterFrom === 'resolution') {
    const place = (left * Math.sqrt(12)) / sensitivity;
    return { how: 'finer-reading', placeValue: decade(place), unit };
  }
  const times = Math.ceil(count * (scatter / left) ** 2);
  // Where the scatter is the greater part, a better instrument would not spare the repeats.
  return times <= manyRepeats || accuracy <= scatter ? { how: 'repeat', times } : null;
};

const betterInstrument = (situation: Situation): Settle => {
  const { target, scatter, scatterFrom, unit, sensitivity } = situation;
  // Where the last digit alone would fill the room, the instrument must show a finer one, too.
  const finer = scatterFrom === 'resolution' && scatter >= target * instrumentShare;
  const forDigit = finer ? target / 2 : scatter;
  const left =
    forDigit < target * instrumentShare ? Math.sqrt(target ** 2 - forDigit ** 2) : target * instrumentShare;
  return {
    how: 'better-instrument',
    halfWidth: roundDown((left * Math.sqrt(3)) / sensitivity),
    placeValue: finer ? decade((forDigit * Math.sqrt(12)) / sensitivity) : null,
    unit,
  };
};

/** A value on its limit: a coarse last digit may hide on which side it lies, nothing else can be won. */
const onTheLimit = ({ scatter, accuracy, scatterFrom, unit, sensitivity }: Situation): Settle =>
  scatterFrom === 'resolution' && scatter > accuracy && scatter > 0
    ? {
        how: 'finer-reading',
        placeValue: decade((scatter * Math.sqrt(12)) / sensitivity / 10),
        unit,
      }
    : { how: 'on-the-limit' };

/**
 * The cheapest remedy for a value whose guard band covers a limit: read it finer, repeat it, or read it with
 * something better. A value that lies on its limit is told so; no instrument settles that.
 *
 * @param spread standard uncertainties, in the unit of value and limits
 * @param count how many repeats the value already rests on
 */
export const settle = (
  value: number,
  spread: Spread,
  limits: Limits,
  scatterFrom: 'resolution' | 'repeats',
  count: number,
): Settle => {
  const { low, high } = limits;
  const room = Math.abs(margin(value, limits) ?? 0);
  // U must come down to a little less than the room there is, since a value on the edge of it is still too close.
  const target = (room / 2) * 0.999;
  const onLimit = target <= spread.total * 0.02;
  const unit = spread.perReading?.unit ?? null;
  const sensitivity = spread.perReading?.sensitivity ?? 1;
  if (low !== null && high !== null && high - low < 4 * spread.accuracy) {
    const widest = (high - low) / 4;
    const wanted = onLimit ? widest : Math.min(widest, target);
    const halfWidth = roundDown((wanted * Math.sqrt(3) * instrumentShare) / sensitivity);
    return beyondInstrument(spread) ?? { how: 'instrument-too-coarse', halfWidth, unit };
  }
  const { scatter, accuracy } = spread;
  const situation: Situation = { scatter, accuracy, target, scatterFrom, count, unit, sensitivity };
  if (onLimit) return onTheLimit(situation);
  return lessScatter(situation) ?? beyondInstrument(spread) ?? betterInstrument(situation);
};
