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

/**
 * Whether an instrument's fixed error is one and the same for all that it reads (a meter that is moved from place to
 * place, a gauge), or another one for each: a module converts each channel by itself, and a tape is laid anew each time.
 */
export type OffsetSharing = 'common' | 'independent';

export interface Instrument {
  readonly name: string;
  /** At most one figure a quantity. */
  readonly accuracy: readonly Accuracy[];
  /** The place value of its last digit, which spares typing trailing zeros. */
  readonly shows: { readonly value: number; readonly unit: UnitName } | null;
  readonly offset: OffsetSharing;
}

/** How an instrument shares its fixed error where the job does not say. */
export const usualOffset = (name: string): OffsetSharing =>
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
