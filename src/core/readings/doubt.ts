import { believable } from './believable.ts';
import { formatNumber } from './format-number.ts';
import { openCircuit } from './parse-quantity.ts';
import { convert, quantityOf, type UnitName } from './units.ts';

/** A reading that nobody would believe, and what was probably meant. */
export interface Doubt {
  /** `12310 V` */
  readonly read: string;
  /** `12.31 V`, `12310 mV`: each could be typed in its place. */
  readonly meant: readonly string[];
}

/** Units that are mistaken for one another, those on most instruments first. */
const usualUnits: readonly UnitName[] = [
  'V',
  'mV',
  'A',
  'mA',
  'psi',
  'bar',
  'kPa',
  'mm',
  'cm',
  'in',
  '°C',
  '°F',
];

/** More places than this nobody slips. */
const mostPlaces = 6;

/** Zero is always possible: a dead circuit reads so. */
const isIn = (value: number, { low, high }: { readonly low: number; readonly high: number }): boolean =>
  value === 0 || (value >= low && value <= high);

/**
 * Whether a reading lies far outside of anything that its channel or condition can come to; then what was probably
 * meant: the decimal point a place or more further left, the same digits in another unit, the leads the other way round.
 *
 * @param number as typed, without its unit
 * @param typedUnit the unit that it was typed in, or that was meant
 * @param name the key of a channel, or the name of a condition
 * @param unit the usual unit of that channel or condition
 */
export const doubtOf = (number: string, typedUnit: UnitName, name: string, unit: UnitName): Doubt | null => {
  const bounds = believable(name, unit);
  const typed = Number(number);
  if (bounds === null || !Number.isFinite(typed)) return null;
  const holds = (value: number, as: UnitName): boolean => isIn(convert(value, as, unit), bounds);
  if (holds(typed, typedUnit) || (typedUnit === 'Ω' && typed >= openCircuit)) return null;
  const meant: string[] = [];
  if (typed < 0 && holds(-typed, typedUnit)) meant.push(`${number.slice(1)} ${typedUnit}`);
  for (let places = 1; meant.length === 0 && places <= mostPlaces; places += 1) {
    const moved = typed / 10 ** places;
    if (moved === 0 || !holds(moved, typedUnit)) continue;
    meant.push(`${formatNumber(moved, 6)} ${typedUnit}`);
  }
  const other = usualUnits.find(
    (one) => one !== typedUnit && quantityOf(one) === quantityOf(unit) && holds(typed, one),
  );
  if (other !== undefined) meant.push(`${number} ${other}`);
  return { read: `${number} ${typedUnit}`, meant: [...new Set(meant)] };
};
