import { describe, expect, it } from 'vitest';
import { openCircuit, parseQuantity } from '../../../src/core/readings/parse-quantity.ts';
import { impossible } from '../../../src/core/readings/possible.ts';
import type { UnitName } from '../../../src/core/readings/units.ts';

const fault = (typed: string, unit: UnitName, low: number | null, high: number | null) => {
  const read = parseQuantity(typed, unit);
  if (!read.ok) throw new Error(read.fault.message);
  return impossible(read.value, unit, { low, high });
};

describe('a reading that cannot be', () => {
  it.each<[string, UnitName, number | null, number | null, string]>([
    ['45', 'A', 0, 20, 'did you mean 45 mA?'],
    ['18 mA', 'A', 0.1, 80, 'did you mean 18 A?'],
    ['16', 'psi', 40, 300, 'did you mean 16 bar?'],
    ['124 V', 'V', 0, 33, 'did you mean 124 mV?'],
    ['9000', 'mm', 200, 201, 'read it again, and look at its unit and its decimal point'],
  ])('%s %s is told with what was meant', (typed, unit, low, high, hint) => {
    expect(fault(typed, unit, low, high)?.hint).toBe(hint);
  });

  it('is none where it lies in the range, where it is zero, or where there is no range', () => {
    expect(fault('20', 'A', 0, 20)).toBeNull();
    expect(fault('0.00', 'A', 0.1, 80)).toBeNull();
    expect(fault('45', 'A', null, null)).toBeNull();
    expect(fault('45', 'A', 50, null)?.message).toContain('at least 50 A');
  });
});

describe('an open circuit', () => {
  it.each(['open', 'Open', 'OL', 'O.L'])('is a resistance beyond the meter, typed as %s', (typed) => {
    expect(parseQuantity(typed, 'Ω')).toMatchObject({ ok: true, value: { value: openCircuit, text: typed } });
    expect(parseQuantity(typed, 'kΩ')).toMatchObject({ ok: true, value: { value: openCircuit / 1000 } });
    expect(parseQuantity(typed, 'V').ok).toBe(false);
  });
});
