import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseQuantity } from '../../../src/core/readings/parse-quantity.ts';

describe('parseQuantity', () => {
  it.each([
    ['2.48 V', 2.48, 0.01],
    ['2.48V', 2.48, 0.01],
    ['2.48', 2.48, 0.01],
    ['2.50', 2.5, 0.01],
    ['2.5', 2.5, 0.1],
    ['250 mV', 0.25, 0.001],
    ['-0.3 V', -0.3, 0.1],
    ['−0.3 V', -0.3, 0.1],
    ['12', 12, 1],
    ['3 MV', 0.003, 0.001],
  ])('reads %s', (text, value, resolution) => {
    const parsed = parseQuantity(text, 'V');
    expect(parsed).toMatchObject({ ok: true });
    if (parsed.ok) {
      expect(parsed.value.value).toBeCloseTo(value, 12);
      expect(parsed.value.resolution).toBeCloseTo(resolution, 12);
    }
  });

  it.each([
    ['50.0 °F', '°C', 10, 0.1 / 1.8],
    ['6.6 bar', 'kPa', 660, 10],
    ['300 K', '°C', 26.85, 1],
    ['2500 mV', 'V', 2.5, 0.001],
  ] as const)('turns %s into %s, its last digit as a span', (text, unit, value, resolution) => {
    const parsed = parseQuantity(text, unit);
    expect(parsed).toMatchObject({
      value: { value: expect.closeTo(value, 10), resolution: expect.closeTo(resolution, 10), text },
    });
  });

  it.each([
    ['2,48 V', 'decimal-comma', 'write 2.48 V'],
    ['012', 'leading-zero', 'write 12'],
    ['012.5 V', 'leading-zero', 'write 12.5 V'],
    ['1e999', 'not-a-number', 'digits'],
    ['1e3 V', 'not-a-number', 'digits'],
    ['.nan', 'not-a-number', '2.48 V'],
    ['about 2', 'not-a-number', '2.48 V'],
    ['2.4.8 V', 'not-a-number', 'digits'],
    ['2.48 furlong', 'unknown-unit', 'V, mV'],
    ['96 psi', 'wrong-unit', 'V, mV'],
    ['1_000 V', 'not-a-number', 'digits'],
    ['0x1F', 'not-a-number', 'digits'],
    ['9999999999999999999 V', 'not-a-number', '2.48 V'],
  ])('refuses %s as %s', (text, code, hint) => {
    const parsed = parseQuantity(text, 'V');
    expect(parsed).toMatchObject({ ok: false, fault: { code } });
    if (!parsed.ok) expect(parsed.fault.hint).toContain(hint);
  });

  it('reads back any decimal that it is given, with the place value of its last digit', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -999_999, max: 999_999 }),
        fc.integer({ min: 0, max: 4 }),
        (digits, places) => {
          const text = (digits / 10 ** places).toFixed(places);
          const parsed = parseQuantity(`${text} V`, 'V');
          expect(parsed.ok).toBe(true);
          if (parsed.ok) {
            expect(parsed.value.value).toBe(Number(text));
            expect(parsed.value.resolution).toBeCloseTo(10 ** -places, 12);
          }
        },
      ),
    );
  });

  it('never throws and never gives a value that is not finite', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 30 }), (text) => {
        const parsed = parseQuantity(text, 'psi');
        if (parsed.ok) expect(Number.isFinite(parsed.value.value)).toBe(true);
      }),
    );
  });
});
