import { chanceAbove, chanceBelow, type Uncertain } from './thirds.ts';

/** What a signal does while the body moves on command. */
export const movementWords = ['follows', 'wrong-way', 'still', 'no-movement'] as const;
export type MovementWord = (typeof movementWords)[number];
export type MovementWeights = Readonly<Record<MovementWord, number>>;

/** How one corner moved. */
export interface Moved {
  /** Movement by tape, mm, upwards positive. */
  readonly tape: Uncertain;
  /** Change of the signal, upwards positive as far as its sense is known. */
  readonly signal: Uncertain;
  /** Whether the job says which way the signal goes as the body rises. */
  readonly senseKnown: boolean;
}

export interface MovementLimits {
  /** mm of tape below which the body did not move. */
  readonly moved: number;
  /** The least change of a signal that follows, in the signal's unit. */
  readonly follows: number;
  /** How much less than its pair a signal may move for each mm, as a fraction. */
  readonly pair: number;
}

const nowhere: MovementWeights = { follows: 0, 'wrong-way': 0, still: 0, 'no-movement': 1 };

/** Change of the signal for each mm of tape, without its direction. */
const gainOf = ({ tape, signal }: Moved): Uncertain => {
  const value = Math.abs(signal.value / tape.value);
  const relative = Math.hypot(
    signal.value === 0 ? 0 : signal.standard / signal.value,
    tape.standard / tape.value,
  );
  return { value, standard: value * relative };
};

const lagChance = (own: Moved, pair: Moved, limit: number): number => {
  const x = gainOf(own);
  const y = gainOf(pair);
  const short = 1 - limit;
  return chanceBelow(
    { value: x.value - short * y.value, standard: Math.hypot(x.standard, short * y.standard) },
    0,
  );
};

/** Whether a corner moved by more than a limit, as the bare value has it. */
export const hasMoved = ({ tape }: Moved, { moved }: MovementLimits): boolean => Math.abs(tape.value) > moved;

/**
 * The chance of each word. A signal that goes the way of the tape follows it, unless its pair goes much further for
 * each mm; where its sense is not known, following and going the wrong way share what either would have.
 *
 * @param pair the other corner of the axle, where it was read and moved, too
 */
export const movementWeights = (own: Moved, pair: Moved | null, limits: MovementLimits): MovementWeights => {
  if (!hasMoved(own, limits)) return nowhere;
  const way = Math.sign(own.tape.value);
  const along = { value: way * own.signal.value, standard: own.signal.standard };
  const ahead = chanceAbove(along, limits.follows);
  const back = chanceBelow(along, -limits.follows);
  const lags = pair !== null && hasMoved(pair, limits) ? lagChance(own, pair, limits.pair) : 0;
  const follows = ahead * (1 - lags);
  const still = Math.max(0, 1 - ahead - back) + ahead * lags;
  if (own.senseKnown) return { follows, 'wrong-way': back, still, 'no-movement': 0 };
  const moves = ahead + back;
  return {
    follows: (moves * (1 - lags)) / 2,
    'wrong-way': (moves * (1 - lags)) / 2,
    still: Math.max(0, 1 - moves) + moves * lags,
    'no-movement': 0,
  };
};
