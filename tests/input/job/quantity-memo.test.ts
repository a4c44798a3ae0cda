import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseQuantity } from '../../../src/core/readings/parse-quantity.ts';
import type { UnitName } from '../../../src/core/readings/units.ts';
import { quantityIn } from '../../../src/input/job/quantity-memo.ts';

const units: readonly UnitName[] = ['V', 'mV', 'psi', 'kPa', '°C', '%'];
const texts = fc.oneof(
  fc
    .tuple(
      fc.constantFrom('', '-', '\u2212'),
      fc.nat(30),
      fc.constantFrom('', '.0', '.50', ',5'),
      fc.constantFrom('', ...units),
    )
    .map(([sign, whole, decimals, unit]) => `${sign}${whole}${decimals} ${unit}`),
  fc.string({ maxLength: 20 }),
);

describe('quantities read before', () => {
  it('are what they are read as, in each unit', () => {
    fc.assert(
      fc.property(texts, fc.shuffledSubarray([...units, ...units], { minLength: 6 }), (text, asked) => {
        for (const unit of asked) expect(quantityIn(text, unit)).toEqual(parseQuantity(text, unit));
      }),
      { numRuns: 300 },
    );
  });

  it('are still right when there were more than are kept', () => {
    for (let step = 0; step < 12_000; step += 1) quantityIn(`${step} V`, 'V');
    expect(quantityIn('7 V', 'V')).toEqual(parseQuantity('7 V', 'V'));
    expect(quantityIn('7 V', 'mV')).toEqual(parseQuantity('7 V', 'mV'));
  });
});
