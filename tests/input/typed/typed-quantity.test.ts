import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseQuantity } from '../../../src/core/readings/parse-quantity.ts';
import { quantityOf, type UnitName, unitsOf } from '../../../src/core/readings/units.ts';
import { typedQuantity, withShownDigits } from '../../../src/input/typed/typed-quantity.ts';
import { faultOf, understood } from '../../support/typing.ts';

const text = (typed: string, unit: UnitName): string => understood(typedQuantity(typed, unit)).text;

describe('a quantity as typed', () => {
  it.each([
    ['2.48', 'V', '2.48 V'],
    ['2.50', 'V', '2.50 V'],
    [' 2.48 v ', 'V', '2.48 V'],
    ['2480mV', 'V', '2480 mV'],
    ['96psi', 'psi', '96 psi'],
    ['6.6bar', 'psi', '6.6 bar'],
    ['-4 C', '°C', '-4 °C'],
    ['\u22124', '°C', '-4 °C'],
    ['+8', '°C', '8 °C'],
    ['46F', '°C', '46 °F'],
    ['90 minutes', 'h', '90 min'],
    ['0', 'V', '0 V'],
  ] as const)('%s in %s is written %s', (typed, unit, written) => {
    expect(text(typed, unit)).toBe(written);
  });

  it.each([
    ['2,48', '2.48 V'],
    ['0,250', '0.250 V'],
    ['-1,5 mV', '-1.5 mV'],
    ['12,3456', '12.3456 V'],
  ])('%s has the comma of a keypad, and is written %s', (typed, written) => {
    expect(text(typed, 'V')).toBe(written);
  });

  it.each(['2,480', '12,345', '1,234,567', '12,5,6', '1,2.3'])(
    '%s may mean two numbers, and is refused',
    (typed) => {
      expect(faultOf(typedQuantity(typed, 'V')).message).toContain('has a decimal comma');
    },
  );

  it.each([
    ['12psi', 'psi measures pressure, and a voltage is wanted here', 'it can be V, mV'],
    ['12 vlot', '"vlot" is not a known unit', 'did you mean volt?'],
    ['12 furlongs', '"furlongs" is not a known unit', 'it can be V, mV'],
    ['1e3', '"1e3" is not a plain number', 'write it out in digits, such as 2.48 V'],
    ['0x10', '"0x10" is not a plain number', 'write it out in digits, such as 2.48 V'],
    ['02.5', '"02.5" has a leading zero', 'write 2.5'],
    ['12 4', '"12 4" has a blank between its digits', 'write 124 if it is one number'],
    ['.5', '".5" is not a reading', 'write a number and its unit, such as 2.48 V'],
    ['', '"" is not a reading', 'write a number and its unit, such as 2.48 V'],
    ['9'.repeat(30), `"${'9'.repeat(30)}" is too large to be a reading`, 'write a number such as 2.48 V'],
  ])('%s is refused with what to write', (typed, message, hint) => {
    const fault = faultOf(typedQuantity(typed, 'V'));
    expect(fault.message).toBe(message);
    if (typed !== '12 vlot') expect(fault.hint).toBe(hint);
  });

  it('that is accepted is written so that a file reads the same value, and as fine', () => {
    const units = [...new Set<UnitName>(['V', 'psi', '°C', 'h', 'mm', 'kPa'])];
    const number = fc
      .tuple(
        fc.constantFrom('', '-', '+', '\u2212'),
        fc.nat(999_999),
        fc.constantFrom('', '.', ','),
        fc.stringMatching(/^\d{1,5}$/u),
      )
      .map(([sign, whole, point, decimals]) => `${sign}${whole}${point === '' ? '' : `${point}${decimals}`}`);
    const typedIn = fc
      .constantFrom(...units)
      .chain((unit) =>
        fc.tuple(
          fc.constant(unit),
          number,
          fc.constantFrom('', ' ', '  '),
          fc.constantFrom(
            '',
            ...unitsOf(quantityOf(unit)),
            ...unitsOf(quantityOf(unit)).map((one) => one.toUpperCase()),
          ),
        ),
      );
    let accepted = 0;
    fc.assert(
      fc.property(typedIn, ([unit, digits, blank, given]) => {
        const quantity = typedQuantity(`${digits}${blank}${given}`, unit);
        if (!quantity.ok) return;
        accepted += 1;
        const read = parseQuantity(quantity.value.text, unit);
        if (!read.ok) throw new Error(`${quantity.value.text}: ${read.fault.message}`);
        expect(read.value.value).toBe(quantity.value.value.value);
        expect(read.value.resolution).toBe(quantity.value.value.resolution);
        expect(quantity.value.text).toMatch(/^-?\d+(\.\d+)? \S+$/u);
      }),
      { numRuns: 500 },
    );
    expect(accepted).toBeGreaterThan(200);
  });
});

describe('zeros that a display shows and nobody types', () => {
  const shown = (typed: string, value: number, unit: UnitName = 'V'): string =>
    withShownDigits(understood(typedQuantity(typed, 'V')), { value, unit }).text;

  it.each([
    ['2.5', 0.01, '2.50 V'],
    ['12', 0.01, '12.00 V'],
    ['-3', 0.1, '-3.0 V'],
    ['2,5', 0.001, '2.500 V'],
  ])('of %s on a display of %s make %s', (typed, value, written) => {
    expect(shown(typed, value)).toBe(written);
  });

  it.each([
    ['finer digits are kept', '2.4812', 0.01, 'V', '2.4812 V'],
    ['a display of whole volts adds none', '12', 1, 'V', '12 V'],
    ['a display of steps of two adds none', '2.5', 0.02, 'V', '2.5 V'],
    ['another unit than the display has', '2500 mV', 0.01, 'V', '2500 mV'],
    ['a display in millivolts', '2.5', 0.01, 'mV', '2.5 V'],
  ] as const)('%s', (_, typed, value, unit, written) => {
    expect(shown(typed, value, unit)).toBe(written);
  });

  it('none where no display is described', () => {
    expect(withShownDigits(understood(typedQuantity('2.5', 'V')), null).text).toBe('2.5 V');
  });
});
