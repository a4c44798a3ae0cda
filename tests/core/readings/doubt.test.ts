import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { believable } from '../../../src/core/readings/believable.ts';
import { doubtOf } from '../../../src/core/readings/doubt.ts';
import { parseQuantity } from '../../../src/core/readings/parse-quantity.ts';
import type { UnitName } from '../../../src/core/readings/units.ts';

describe('a reading that nobody would believe', () => {
  it.each<[string, UnitName, string, UnitName, string, readonly string[]]>([
    ['12310', 'V', 'battery', 'V', '12310 V', ['12.31 V', '12310 mV']],
    ['96', 'bar', 'tank', 'psi', '96 bar', ['9.6 bar', '96 psi']],
    ['248', 'V', 'position.LF', 'V', '248 V', ['2.48 V', '248 mV']],
    ['24.8', 'V', 'position.LF', 'V', '24.8 V', ['2.48 V', '24.8 mV']],
    ['-12.31', 'V', 'battery', 'V', '-12.31 V', ['12.31 V', '-12.31 mV']],
    ['4120', 'mm', 'height.LR', 'mm', '4120 mm', ['412 mm']],
    ['412', 'cm', 'height.LR', 'mm', '412 cm', ['41.2 cm', '412 mm']],
    ['80', '°C', 'air', '°C', '80 °C', ['8 °C', '80 °F']],
    ['1013', 'kPa', 'barometer', 'kPa', '1013 kPa', ['101.3 kPa']],
  ])('%s %s of %s, in %s, is doubted', (number, typed, name, unit, read, meant) => {
    const doubt = doubtOf(number, typed, name, unit);
    expect(doubt?.read).toBe(read);
    for (const one of meant.slice(0, 2)) expect(doubt?.meant).toContain(one);
  });

  it.each<[string, UnitName, string, UnitName]>([
    ['12.31', 'V', 'battery', 'V'],
    ['17.9', 'V', 'supply', 'V'],
    ['0', 'kPa', 'barometer', 'kPa'],
    ['12.6', 'V', 'position.LF', 'V'],
    ['9.1', 'bar', 'tank', 'psi'],
    ['-40', '°C', 'air', '°C'],
    ['-0.9', 'psi', 'tank', 'psi'],
    ['60000000', 'Ω', 'network-resistance', 'Ω'],
    ['250', 'mV', 'feed-drop', 'V'],
  ])('%s %s of %s is taken', (number, typed, name, unit) => {
    expect(doubtOf(number, typed, name, unit)).toBeNull();
  });

  it('is offered only what would be believed', () => {
    const names = ['battery', 'position.LR', 'tank', 'height.LF', 'compressor-current', 'air', 'feed-drop'];
    const units: Readonly<Record<string, UnitName>> = {
      tank: 'psi',
      'height.LF': 'mm',
      'compressor-current': 'A',
      air: '°C',
    };
    fc.assert(
      fc.property(
        fc.constantFrom(...names),
        fc.double({ min: -1e7, max: 1e7, noNaN: true }),
        (name, value) => {
          const unit = units[name] ?? 'V';
          const doubt = doubtOf(value.toFixed(2), unit, name, unit);
          const bounds = believable(name, unit);
          for (const text of doubt?.meant ?? []) {
            const parsed = parseQuantity(text, unit);
            expect(parsed.ok && bounds && parsed.value.value >= bounds.low - 1e-6).toBe(true);
            expect(parsed.ok && bounds && parsed.value.value <= bounds.high + 1e-6).toBe(true);
          }
        },
      ),
    );
  });

  it('has its bounds in the unit of the channel, which may be one of its own', () => {
    expect(believable('tank', 'bar')?.high).toBeCloseTo(27.6, 1);
    expect(believable('network-resistance', 'Ω')).toBeNull();
    // A pack of somebody's own may call a current what others call a voltage.
    expect(believable('battery', 'A')).toEqual({ low: -1500, high: 1500, unit: 'A' });
  });
});
