import { convert, convertSpan, findUnit, quantityOf, type UnitName, unitsOf } from './units.ts';

/** A number as typed, in the wanted unit, with the place value of its last digit. */
export interface TypedValue {
  readonly value: number;
  /** The place value of the last digit typed (2.50 has 0.01), in the same unit as `value`. */
  readonly resolution: number;
  readonly text: string;
}

/** Why a text is not a quantity, and what to write; both are ready to be shown. */
export interface QuantityFault {
  readonly code: 'decimal-comma' | 'leading-zero' | 'not-a-number' | 'unknown-unit' | 'wrong-unit';
  readonly message: string;
  readonly hint: string;
  /** A unit that is not one of these: the nearest may be offered before the hint. */
  readonly typed?: { readonly word: string; readonly known: readonly string[] };
}

export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly fault: QuantityFault };

/** Ω that stand for a reading beyond the range of any workshop meter. */
export const openCircuit = 60e6;

/** Whether a text says that a meter showed no end to a resistance: `open`, `OL`. */
export const isOpen = (typed: string): boolean => /^(?:open|o\.?l\.?)$/iu.test(typed.trim());

const number = /^([+-]?)(\d+)(?:\.(\d+))?\s*(.*)$/u;
const comma = /^[+-]?\d+,\d/u;

const fault = (
  code: QuantityFault['code'],
  message: string,
  hint: string,
): { ok: false; fault: QuantityFault } => ({
  ok: false,
  fault: { code, message, hint },
});

/** What a comma between digits may have meant: a decimal point, or groups of three digits. */
const withoutComma = (text: string): string => {
  const grouped = /^[+-]?\d{1,3}(?:,\d{3})+(?![\d,])/u.test(text);
  const joined = text.replaceAll(',', '');
  if (!grouped) return `write ${shown(text.replace(',', '.'))}`;
  const asPoint = text.replace(',', '.');
  return /,.*[.,]/u.test(text) ? `write ${shown(joined)}` : `write ${shown(joined)} or ${shown(asPoint)}`;
};

const shown = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text);

/**
 * Reads a quantity as a person types it (`2.48 V`, `2.48V`, `2.48`, `250 mV`, `-4 °C`) and gives it in `unit`.
 * The digits typed give the resolution; `open` and `OL` are a resistance beyond the meter's range. Exponents, decimal commas and leading zeros are refused, because each of
 * them has been somebody's silent mistake.
 */
export const parseQuantity = (typed: string, unit: UnitName): Parsed<TypedValue> => {
  const text = typed.trim().replace(/^\u2212/u, '-');
  const example = `2.48 ${unit}`;
  if (quantityOf(unit) === 'resistance' && isOpen(text)) {
    const value = convert(openCircuit, 'Ω', unit);
    return { ok: true, value: { value, resolution: convertSpan(1, 'Ω', unit), text } };
  }
  if (comma.test(text)) {
    return fault('decimal-comma', `"${shown(text)}" has a decimal comma`, withoutComma(text));
  }
  const match = number.exec(text);
  if (!match) {
    return fault(
      'not-a-number',
      `"${shown(text)}" is not a reading`,
      `write a number and its unit, such as ${example}`,
    );
  }
  const [, sign = '', whole = '', decimals = '', tail = ''] = match;
  if (/^\d/u.test(tail)) {
    const together = `${sign}${whole}${text.slice(sign.length + whole.length).replace(/\s+(?=\d)/gu, '')}`;
    return fault(
      'not-a-number',
      `"${shown(text)}" has a blank between its digits`,
      `write ${shown(together)} if it is one number`,
    );
  }
  if (/^[eE][+-]?\d/u.test(tail) || /^[._]|^x[\da-f]/iu.test(tail)) {
    return fault(
      'not-a-number',
      `"${shown(text)}" is not a plain number`,
      `write it out in digits, such as ${example}`,
    );
  }
  if (/^0\d/u.test(whole)) {
    const without = `${sign}${whole.replace(/^0+(?=\d)/u, '')}${decimals && `.${decimals}`}${tail && ` ${tail}`}`;
    return fault('leading-zero', `"${shown(text)}" has a leading zero`, `write ${shown(without)}`);
  }
  const given = tail === '' ? unit : findUnit(tail);
  if (given === null) {
    const right = unitsOf(quantityOf(unit));
    const wrong = fault(
      'unknown-unit',
      `"${shown(tail)}" is not a known unit`,
      `it can be ${right.join(', ')}`,
    );
    return { ok: false, fault: { ...wrong.fault, typed: { word: tail, known: right } } };
  }
  if (quantityOf(given) !== quantityOf(unit)) {
    const message = `${given} measures ${quantityOf(given)}, and a ${quantityOf(unit)} is wanted here`;
    return fault('wrong-unit', message, `it can be ${unitsOf(quantityOf(unit)).join(', ')}`);
  }
  const value = Number(`${sign}${whole}.${decimals || '0'}`);
  if (!Number.isFinite(value) || whole.length > 15) {
    return fault(
      'not-a-number',
      `"${shown(text)}" is too large to be a reading`,
      `write a number such as ${example}`,
    );
  }
  const resolution = 10 ** -decimals.length;
  return {
    ok: true,
    value: {
      value: convert(value, given, unit),
      resolution: convertSpan(resolution, given, unit),
      text,
    },
  };
};
