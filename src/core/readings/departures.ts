import { type Thirds, thirdsOf, type Uncertain } from './thirds.ts';

/** What signal and tape say of one axle, or of one corner, together. */
export const departureWords = ['alike', 'honest', 'signal-alone', 'tape-alone', 'opposed'] as const;
export type DepartureWord = (typeof departureWords)[number];
export type DepartureWeights = Readonly<Record<DepartureWord, number>>;

/** One reading of what the signals mean, where their sense leaves more than one open. */
export interface SignalReading extends Uncertain {
  /** Its share among the readings; they add up to one. */
  readonly share: number;
}

const together = (signal: Thirds, tape: Thirds): DepartureWeights => ({
  alike: signal.middle * tape.middle,
  honest: signal.low * tape.low + signal.high * tape.high,
  'signal-alone': (signal.low + signal.high) * tape.middle,
  'tape-alone': signal.middle * (tape.low + tape.high),
  opposed: signal.low * tape.high + signal.high * tape.low,
});

/**
 * The chance of each word: whether signal and tape depart from equal, and whether they do so in one direction. Both are
 * taken as independent, since no instrument reads both.
 *
 * @param signals departure of the signals, upwards positive, in the unit of `limits.signal`; one for each sense that
 *   the sensors may have
 * @param tape departure by tape, upwards positive
 */
export const departureWeights = (
  signals: readonly SignalReading[],
  tape: Uncertain,
  limits: { readonly signal: number; readonly tape: number },
): DepartureWeights => {
  const sum: Record<DepartureWord, number> = {
    alike: 0,
    honest: 0,
    'signal-alone': 0,
    'tape-alone': 0,
    opposed: 0,
  };
  const byTape = thirdsOf(tape, limits.tape);
  for (const signal of signals) {
    const weights = together(thirdsOf(signal, limits.signal), byTape);
    for (const word of departureWords) sum[word] += signal.share * weights[word];
  }
  return sum;
};

/** The chance that the signals tell what the tape tells: alike or honest. */
export const chanceHonest = ({ alike, honest }: DepartureWeights): number => alike + honest;
