import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  convert,
  convertSpan,
  findUnit,
  type QuantityKind,
  quantityOf,
  type UnitName,
  unitsOf,
} from '../../../src/core/readings/units.ts';

const quantities: readonly QuantityKind[] = [
  'voltage',
  'current',
  'resistance',
  'pressure',
  'pressure-rate',
  'temperature',
  'length',
  'length-rate',
  'area',
  'force',
  'time',
  'ratio',
];
const pairs = quantities.flatMap((quantity) =>
  unitsOf(quantity).flatMap((from) => unitsOf(quantity).map((to) => [from, to] as const)),
);

describe('units', () => {
  it('come back from any unit of their quantity', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...pairs),
        fc.double({ min: -1000, max: 1000, noNaN: true }),
        ([from, to], value) => {
          const there = convert(value, from, to);
          expect(convert(there, to, from)).toBeCloseTo(value, 6);
        },
      ),
    );
  });

  it('convert a span as the difference of two values', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...pairs),
        fc.double({ min: -100, max: 100, noNaN: true }),
        fc.double({ min: -100, max: 100, noNaN: true }),
        ([from, to], value, span) => {
          const difference = convert(value + span, from, to) - convert(value, from, to);
          const scale = Math.max(1, Math.abs(convert(100, from, to)), Math.abs(convertSpan(100, from, to)));
          expect(Math.abs(convertSpan(span, from, to) - difference)).toBeLessThan(1e-9 * scale);
        },
      ),
    );
  });

  it('do not convert into another quantity', () => {
    expect(() => convert(1, 'V', 'psi')).toThrow();
  });

  it.each<[string, UnitName | null]>([
    ['V', 'V'],
    ['mv', 'mV'],
    ['MV', 'mV'],
    ['Psi', 'psi'],
    ['PSI', 'psi'],
    ['C', '°C'],
    ['degF', '°F'],
    ['f', '°F'],
    ['K', 'K'],
    ['k', 'kΩ'],
    ['Ohm', 'Ω'],
    ['\u2126', 'Ω'],
    ['inches', null],
    ['"', 'in'],
    ['hours', 'h'],
    ['furlong', null],
    ['', null],
    ['toString', null],
  ])('%s is %s', (typed, unit) => {
    expect(findUnit(typed)).toBe(unit);
  });

  it('have no two names that differ only in case, which would make the lenient reading a guess', () => {
    const names = quantities.flatMap(unitsOf);
    expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(names.length);
    for (const name of names) expect(quantities).toContain(quantityOf(name));
  });
});
