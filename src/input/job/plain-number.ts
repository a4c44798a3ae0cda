import type { ProblemCode } from '../../core/flaw.ts';
import { quoted, shortened } from '../quoted.ts';

/** Numbers that mean what they show, and few enough digits that none is lost. */
const plain = /^[-+]?(?:0|[1-9]\d{0,14})(?:\.\d{1,15})?$/u;
const hex = /^0x[0-9a-fA-F]{1,6}$/u;

/** Whether digits mean what they show, and none of them is lost. */
export const isPlainNumber = (source: string): boolean => plain.test(source);

/** Whether a text is spelt like the bytes of a trouble code or a status. */
export const isPlainHex = (source: string): boolean => hex.test(source);

export interface NumberFlaw {
  readonly code: ProblemCode;
  readonly message: string;
  readonly hint: string;
}

/**
 * What is wrong with a number as typed, or null. YAML reads `012`, `1e999` and `0x1F` as numbers, and none of them
 * is what a person means who types minutes or an amount.
 *
 * @param hexAllowed for the bytes of a trouble code and its status
 * @param counted where nothing but a number can be meant
 */
export const numberFlaw = (
  value: number,
  source: string,
  hexAllowed: boolean,
  counted: boolean,
): NumberFlaw | null => {
  if (plain.test(source) || (hexAllowed && hex.test(source))) return null;
  const orQuoted = counted ? '' : ', or put it in quotes if it is a name';
  if (/^[-+]?0\d/u.test(source)) {
    const without = shortened(source.replace(/^([-+]?)0+(?=\d)/u, '$1'));
    const hint = `write ${without}${orQuoted}`;
    return { code: 'leading-zero', message: `${quoted(source)} has a leading zero`, hint };
  }
  const digits = String(value);
  const hint = plain.test(digits) ? `write ${digits}${orQuoted}` : `write it out in digits${orQuoted}`;
  return { code: 'number-not-plain', message: `${quoted(source)} is not a plain number`, hint };
};
