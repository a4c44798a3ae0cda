import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/core/assess.ts';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { evening, instant, jobOf, keyOn, packOf } from '../../support/judge.ts';
import { aloneOf, benchPack, ranked } from './bench-pack.ts';

const pack = packOf(benchPack);

const volts = (low: number, high: number) =>
  fc.integer({ min: low * 100, max: high * 100 }).map((hundredths) => `${(hundredths / 100).toFixed(2)} V`);
const maybe = (value: fc.Arbitrary<string>) => fc.option(value, { nil: null, freq: 3 });

/** Any readings, some of them left out, one of them off at least. */
const readings = fc
  .record({
    'position.LF': maybe(volts(0.5, 4.5)),
    'position.RF': maybe(volts(0.5, 4.5)),
    'position.LR': fc.constant('0.50 V'),
    'position.RR': maybe(volts(0.5, 4.5)),
    supply: maybe(volts(11, 15.5)),
    reference: maybe(volts(4.5, 5.5)),
    tank: maybe(fc.integer({ min: 60, max: 130 }).map((psi) => `${psi} psi`)),
  })
  .map((all) =>
    Object.entries(all).flatMap(([key, value]) => (value === null ? [] : [[key, value] as const])),
  );

const jobText = (typed: readonly (readonly [string, string])[]): string => {
  const corners = typed.filter(([key]) => key.startsWith('position.'));
  const others = typed.filter(([key]) => !key.startsWith('position.'));
  const position = `position: {${corners.map(([key, value]) => `${key.slice(9)}: ${value}`).join(', ')}}`;
  return `${keyOn(`{${[position, ...others.map(([key, value]) => `${key}: ${value}`)].join(', ')}}`)}costs: {labour-rate: 60 / h}\n`;
};

describe('whatever is read', () => {
  it('probabilities sum to 1, ledgers add up, savings keep below what is at stake, and the order is no matter', () => {
    fc.assert(
      fc.property(readings, fc.infiniteStream(fc.nat()), (typed, keys) => {
        const job = jobOf(jobText(typed), [pack]);
        const { ranking, findings } = assess(job, preparePacks([pack], []), instant(evening));
        if (ranking === null) throw new Error('a corner is off');
        // Each suspect alone, pairs, and something else: one of them is so.
        expect(ranking.hypotheses.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 12);
        for (const { id, probability, rival, ledger } of ranking.suspects) {
          const total = ledger.reduce((sum, { points }) => sum + points, 0);
          expect(total).toBeCloseTo(10 * Math.log10(aloneOf(ranking, id) / aloneOf(ranking, rival)), 9);
          expect(probability).toBeGreaterThanOrEqual(aloneOf(ranking, id) - 1e-12);
          expect(probability).toBeLessThanOrEqual(1 + 1e-12);
          for (const { likelihood } of ledger) expect(likelihood).toBeGreaterThan(0);
        }
        // Escalating loses 300 at most, so that no test can save more.
        for (const { saves, bits } of ranking.nextTests) {
          expect(saves).toBeLessThan(300);
          expect(bits).toBeGreaterThan(0);
        }
        const ids = findings.map(({ id }) => id);
        for (const id of ranking.conflict) expect(ids).toContain(id);
        const shuffled = findings
          .map((finding) => ({ finding, key: keys.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ finding }) => finding);
        expect(ranked(job, pack, shuffled)).toEqual(ranking);
      }),
      { seed: 7, numRuns: 60 },
    );
  });
});
