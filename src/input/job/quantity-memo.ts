import { type Parsed, parseQuantity, type TypedValue } from '../../core/readings/parse-quantity.ts';
import type { UnitName } from '../../core/readings/units.ts';

/**
 * Quantities read before, by unit and text. An instrument shows few different values, so that many jobs hold the same
 * ones; reading is pure, and nobody changes what was read.
 */
const readBefore = new Map<UnitName, Map<string, Parsed<TypedValue>>>();
const mostKept = 5000;

/** Longer texts are rare, and an engine may keep the whole file that such a one was cut from. */
const longestKept = 12;

/** The same as `parseQuantity`, at a small part of its time for what was read before. */
export const quantityIn = (typed: string, unit: UnitName): Parsed<TypedValue> => {
  const ofUnit = readBefore.get(unit) ?? new Map<string, Parsed<TypedValue>>();
  const known = ofUnit.get(typed);
  if (known !== undefined) return known;
  const parsed = parseQuantity(typed, unit);
  if (typed.length > longestKept) return parsed;
  if (ofUnit.size >= mostKept) ofUnit.clear();
  ofUnit.set(typed, parsed);
  readBefore.set(unit, ofUnit);
  return parsed;
};
