import type { QuantityKind, UnitName } from './units.ts';

/** One accuracy figure: a share of the reading plus a fixed part, both half-widths. */
export interface Accuracy {
  readonly quantity: QuantityKind;
  /** Fraction of the reading (0.005 for 0.5 %). */
  readonly gain: number;
  /** Fixed part, in `unit`. */
  readonly fixed: number;
  readonly unit: UnitName;
}

export interface Instrument {
  readonly name: string;
  /** At most one figure a quantity. */
  readonly accuracy: readonly Accuracy[];
  /** The place value of its last digit, which spares typing trailing zeros. */
  readonly shows: { readonly value: number; readonly unit: UnitName } | null;
  /** `common`: one fixed error in all that it reads; `independent`: one of its own in each channel. By name if absent. */
  readonly offset?: OffsetKind;
}

export const offsetKinds = ['common', 'independent'] as const;
export type OffsetKind = (typeof offsetKinds)[number];

/**
 * The usual kind of an instrument's fixed error. A module reads each channel through a converter input of its own, and
 * a tape is laid on anew at each place; a meter or a gauge takes its error along.
 */
export const usualOffset = (name: string): OffsetKind =>
  name === 'module' || name === 'tape' ? 'independent' : 'common';

const instrument = (name: string, ...accuracy: Accuracy[]): Instrument => ({
  name,
  accuracy,
  shows: null,
  offset: usualOffset(name),
});

/**
 * What is assumed of instruments that a job file does not describe. All from memory: typical of workshop
 * equipment, replaced by whatever the job's `instruments` states.
 */
export const usualInstruments: readonly Instrument[] = [
  instrument(
    'meter',
    { quantity: 'voltage', gain: 0.005, fixed: 0.02, unit: 'V' },
    { quantity: 'current', gain: 0.02, fixed: 0.05, unit: 'A' },
    { quantity: 'resistance', gain: 0.01, fixed: 0.3, unit: 'Ω' },
  ),
  instrument('module', { quantity: 'voltage', gain: 0, fixed: 0.05, unit: 'V' }),
  instrument('gauge', { quantity: 'pressure', gain: 0, fixed: 1, unit: 'psi' }),
  instrument('tape', { quantity: 'length', gain: 0, fixed: 3, unit: 'mm' }),
  instrument('thermometer', { quantity: 'temperature', gain: 0, fixed: 1, unit: '°C' }),
];

/** The instrument of a name; one that is neither described nor usual is taken as exact. */
export const instrumentNamed = (instruments: readonly Instrument[], name: string): Instrument => {
  for (const one of instruments) if (one.name === name) return one;
  return { name, accuracy: [], shows: null };
};

/** Figures that nobody stated: a pack may know better what to assume for one channel. */
const assumed: ReadonlySet<Accuracy> = new Set(usualInstruments.flatMap(({ accuracy }) => accuracy));

/** An instrument with a channel's own figure in place of one that is only assumed; what a job states stays. */
export const forChannel = (instrument: Instrument, own: Accuracy | null): Instrument =>
  own === null
    ? instrument
    : {
        ...instrument,
        accuracy: instrument.accuracy.map((one) =>
          one.quantity === own.quantity && assumed.has(one) ? own : one,
        ),
      };
