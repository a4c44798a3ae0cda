import { formatNumber } from './format-number.ts';
import { parseQuantity, type TypedValue } from './parse-quantity.ts';
import { quantityOf, type UnitName, unitsOf } from './units.ts';
import type { Limits } from './verdict.ts';

/** Why a reading cannot be what its instrument showed, and what it probably was. */
export interface Impossible {
  readonly message: string;
  readonly hint: string;
}

const rangeText = ({ low, high }: Limits, unit: UnitName): string => {
  if (low === null) return `at most ${formatNumber(high ?? 0, 3)} ${unit}`;
  if (high === null) return `at least ${formatNumber(low, 3)} ${unit}`;
  return `${formatNumber(low, 3)} to ${formatNumber(high, 3)} ${unit}`;
};

const isIn = (value: number, { low, high }: Limits): boolean =>
  (low === null || value >= low) && (high === null || value <= high);

/**
 * Whether a reading lies outside of all that its channel can come to: then its unit or its decimal point slipped. The
 * same digits in another unit are offered where they would be possible. Zero always is: a dead circuit reads so.
 *
 * @param possible in `unit`, the channel's
 */
export const impossible = (
  { value, text }: TypedValue,
  unit: UnitName,
  possible: Limits | null,
): Impossible | null => {
  if (possible === null || value === 0 || isIn(value, possible)) return null;
  const digits = /^[-+]?[\d.]+/u.exec(text)?.[0] ?? '';
  const meant = unitsOf(quantityOf(unit)).find((other) => {
    const read = parseQuantity(`${digits} ${other}`, unit);
    return read.ok && isIn(read.value.value, possible);
  });
  const message = `"${text}" is ${formatNumber(value, 3)} ${unit}, and ${rangeText(possible, unit)} is all that can be here`;
  const again = 'read it again, and look at its unit and its decimal point';
  return { message, hint: meant === undefined ? again : `did you mean ${digits} ${meant}?` };
};
