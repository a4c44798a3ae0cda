import { type Thirds, thirdsOf, type Uncertain } from './thirds.ts';

/** Where air goes inside a closed system. */
export const migrationWords = ['none', 'tank-to-corner', 'corner-to-tank', 'corner-to-corner'] as const;
export type MigrationWord = (typeof migrationWords)[number];
export type MigrationWeights = Readonly<Record<MigrationWord, number>>;

/** How a closed system changes with time, corrected for temperature; rises are positive. */
export interface ClosedRates {
  /** Pressure of the tank an hour. */
  readonly tank: Uncertain;
  /** Mean of the four heights, and half the differences of left and right and of front and rear, an hour. */
  readonly heave: Uncertain;
  readonly roll: Uncertain;
  readonly pitch: Uncertain;
}

/**
 * A spring that gains or loses moves its corner by three parts, of which heave, pitch and roll are one each.
 * Source: statics of a rigid body on four equal springs.
 */
const partOfCorner = 3;

/**
 * The chance of each way that air can go. Out of the tank into a corner the tank falls and the body rises, and the
 * other way round; from corner to corner both stay while the body leans; everything else is a loss, or nothing.
 *
 * @param limits the least change of the tank's pressure and of a corner's height in an hour that counts
 */
export const migrationWeights = (
  { tank, heave, roll, pitch }: ClosedRates,
  limits: { readonly tank: number; readonly corner: number },
): MigrationWeights => {
  const pressure = thirdsOf(tank, limits.tank);
  const part = limits.corner / partOfCorner;
  const body = thirdsOf(heave, part);
  const leans = 1 - still(thirdsOf(roll, part)) * still(thirdsOf(pitch, part));
  const toCorner = pressure.low * body.high;
  const toTank = pressure.high * body.low;
  const across = pressure.middle * body.middle * leans;
  return {
    none: Math.max(0, 1 - toCorner - toTank - across),
    'tank-to-corner': toCorner,
    'corner-to-tank': toTank,
    'corner-to-corner': across,
  };
};

const still = ({ middle }: Thirds): number => middle;
