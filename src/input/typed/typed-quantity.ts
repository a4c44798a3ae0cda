import { isOpen, parseQuantity, type TypedValue } from '../../core/readings/parse-quantity.ts';
import { findUnit, type UnitName } from '../../core/readings/units.ts';
import { didYouMean } from '../suggest.ts';
import { right, type Typed, wrong } from './typed.ts';

/** A quantity as it is written into a file, and what it is. */
export interface Quantity {
  /** `2.48 V`: digits as typed, a dot, the unit always. */
  readonly text: string;
  /** The number alone, as it is written. */
  readonly number: string;
  readonly unit: UnitName;
  readonly value: TypedValue;
}

/** A comma keypad: one comma between digits and no dot, and not three digits after it, which may be thousands. */
const commaNumber = /^([+-]?\d+),(\d+)(?![\d.,])/u;

const withDot = (typed: string): string => {
  const match = commaNumber.exec(typed);
  const mayBeThousands = /^[+-]?[1-9]\d{0,2},\d{3}(?!\d)/u.test(typed);
  return match && !mayBeThousands ? typed.replace(',', '.') : typed;
};

/**
 * A quantity as typed on a keypad: `2.48`, `2,48`, `96psi`, `-4 C`.
 *
 * @param unit the unit of a number without one
 */
export const typedQuantity = (typed: string, unit: UnitName): Typed<Quantity> => {
  const text = withDot(typed.trim().replace(/^\u2212/u, '-'));
  const parsed = parseQuantity(text, unit);
  if (!parsed.ok) {
    const { message, hint, typed: word } = parsed.fault;
    return wrong(typed, message, word ? didYouMean(word.word, word.known, hint) : hint);
  }
  if (isOpen(text)) return right({ text: 'open', number: 'open', unit, value: parsed.value });
  const match = /^([+-]?[\d.]+)\s*(.*)$/u.exec(text);
  const number = (match?.[1] ?? text).replace(/^\+/u, '');
  const given = match?.[2] ? (findUnit(match[2]) ?? unit) : unit;
  return right({ text: `${number} ${given}`, number, unit: given, value: parsed.value });
};

/** The quantity with the zeros that the instrument's display shows and nobody types: 2.5 on a 0.01 V display is 2.50. */
export const withShownDigits = (
  quantity: Quantity,
  shows: { readonly value: number; readonly unit: UnitName } | null,
): Quantity => {
  if (shows === null || quantity.number === 'open' || shows.unit !== quantity.unit) return quantity;
  const places = Math.round(-Math.log10(shows.value));
  if (places <= 0 || Math.abs(10 ** -places - shows.value) > shows.value * 1e-9) return quantity;
  const [whole = '', decimals = ''] = quantity.number.split('.');
  if (decimals.length >= places) return quantity;
  const number = `${whole}.${decimals.padEnd(places, '0')}`;
  return { ...quantity, number, text: `${number} ${quantity.unit}` };
};
