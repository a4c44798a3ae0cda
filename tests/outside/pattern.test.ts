import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Corner, corners } from '../../src/core/corner.ts';
import {
  type CornerSignal,
  type CornerSignals,
  fitPatterns,
  patternOf,
  surenessOf,
} from '../../src/core/readings/corner-patterns.ts';

const signal = fc.record({
  value: fc.double({ min: 0, max: 5, noNaN: true }),
  expected: fc.double({ min: 1.5, max: 3.5, noNaN: true }),
  spread: fc.double({ min: 0.05, max: 1, noNaN: true }),
  sense: fc.constantFrom<1 | -1>(1, -1),
});
const four: fc.Arbitrary<CornerSignals> = fc.record({ LF: signal, RF: signal, LR: signal, RR: signal });

const reference = 5;

/** What each model says a corner reads, written out anew from its words: expected volts and one parameter. */
const predicted: Readonly<Record<string, (one: CornerSignal, amount: number) => number>> = {
  scaled: ({ expected }, amount) => expected * (1 + amount),
  raised: ({ value, expected }, amount) => expected + amount * (1 - value / reference),
  body: ({ expected, sense }, amount) => expected + sense * amount,
};

const families: readonly (readonly [string, string, readonly Corner[], string])[] = [
  ['scaled', 'null', corners, 'scaled'],
  ['raised', 'null', corners, 'raised'],
  ['body', 'null', corners, 'body'],
  ['corner', 'LF', ['LF'], 'body'],
  ['corner', 'RF', ['RF'], 'body'],
  ['corner', 'LR', ['LR'], 'body'],
  ['corner', 'RR', ['RR'], 'body'],
  ['side', 'left', ['LF', 'LR'], 'body'],
  ['side', 'right', ['RF', 'RR'], 'body'],
  ['axle', 'front', ['LF', 'RF'], 'body'],
  ['axle', 'rear', ['LR', 'RR'], 'body'],
];

const misfit = (signals: CornerSignals, moves: readonly Corner[], how: string, amount: number): number =>
  corners.reduce((sum, corner) => {
    const one = signals[corner];
    const says = moves.includes(corner) ? (predicted[how]?.(one, amount) ?? Number.NaN) : one.expected;
    return sum + ((one.value - says) / one.spread) ** 2;
  }, 0);

/** The least misfit over a grid that is drawn closer round its best point again and again. */
const gridSearch = (cost: (amount: number) => number): number => {
  let centre = 0;
  let reach = 60;
  for (let round = 0; round < 45; round += 1) {
    const grid = Array.from({ length: 41 }, (_, index) => centre + reach * (index / 20 - 1));
    centre = grid.reduce((best, amount) => (cost(amount) < cost(best) ? amount : best), centre);
    reach /= 2;
  }
  return cost(centre);
};

/** Shares that the axle mate of the corner with the lost spring may move by, as roll bars of a vehicle leave it. */
const axleMates: readonly number[] = [1 / 3, 0.5, 0.6, 0.7];

/** By statics of a rigid body without warp: the side mate moves by what the axle mate leaves, the one across against it. */
const shareOf = (corner: Corner, lost: Corner, axleMate: number): number => {
  if (corner === lost) return 1;
  if (corner[1] === lost[1]) return axleMate;
  return corner[0] === lost[0] ? (1 - axleMate) / 2 : (axleMate - 1) / 2;
};

describe('the pattern of four corners', () => {
  it('fits every model as well as a search over its one parameter does', () => {
    fc.assert(
      fc.property(four, (signals) => {
        const fits = fitPatterns(signals, reference);
        expect(fits).toHaveLength(12);
        const none = fits.find(({ name }) => name === 'none');
        expect(none?.bic).toBeCloseTo(misfit(signals, [], '', 0), 8);
        for (const [name, place, moves, how] of families) {
          const fit = fits.find((one) => one.name === name && String(one.place) === place);
          const searched = gridSearch((amount) => misfit(signals, moves, how, amount));
          // Schwarz (1978): χ² + k ln n, here one parameter and four corners.
          const bic = searched + Math.log(4);
          expect(Math.abs((fit?.bic ?? Number.NaN) - bic), `${name} ${place}`).toBeLessThan(1e-6 * (1 + bic));
        }
      }),
      { numRuns: 25 },
    );
  });

  it('fits one spring by the mean likelihood over how stiff in roll the vehicle may be', () => {
    fc.assert(
      fc.property(four, fc.constantFrom(...corners), (signals, place) => {
        const fits = fitPatterns(signals, reference, true);
        expect(fits).toHaveLength(16);
        const fit = fits.find(({ name, place: at }) => name === 'spring' && at === place);
        const misfits = axleMates.map((mate) =>
          gridSearch((amount) =>
            corners.reduce((sum, corner) => {
              const { value, expected, spread, sense } = signals[corner];
              return sum + ((value - expected - sense * amount * shareOf(corner, place, mate)) / spread) ** 2;
            }, 0),
          ),
        );
        const least = Math.min(...misfits);
        const mean = misfits.reduce((sum, one) => sum + Math.exp((least - one) / 2), 0) / misfits.length;
        const bic = least - 2 * Math.log(mean) + Math.log(4);
        expect(Math.abs((fit?.bic ?? Number.NaN) - bic)).toBeLessThan(1e-6 * (1 + bic));
      }),
      { numRuns: 15 },
    );
  });

  it.each(axleMates)('finds one spring, and its corner, where its axle mate moves by %s of it', (mate) => {
    for (const lost of corners) {
      const sunk = (corner: Corner): CornerSignal => ({
        value: 2.5 - 0.8 * shareOf(corner, lost, mate),
        expected: 2.5,
        spread: 0.1,
        sense: 1,
      });
      const four = { LF: sunk('LF'), RF: sunk('RF'), LR: sunk('LR'), RR: sunk('RR') };
      const found = patternOf(four, reference, true);
      expect([found.best.family, found.best.place]).toEqual(['spring', lost]);
      expect(found.sure).not.toBe('cannot-tell');
      expect(found.best.amount).toBeLessThan(-0.7);
      expect(found.best.amount).toBeGreaterThan(-0.9);
      expect(found.weights.spring).toBeGreaterThan(0.7);
      // Only where a check asks for springs are they among the models.
      expect(patternOf(four, reference).weights.spring).toBe(0);
    }
  });

  it('weighs the models by exp(−BIC/2), normalised', () => {
    fc.assert(
      fc.property(four, (signals) => {
        const fits = fitPatterns(signals, reference);
        const [best] = fits;
        expect(fits.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
        for (const { bic, weight } of fits) {
          expect(weight).toBeCloseTo(best.weight * Math.exp((best.bic - bic) / 2), 12);
          expect(bic).toBeGreaterThanOrEqual(best.bic - 1e-9);
        }
      }),
    );
  });

  it('leads by ln n at the most where no pattern is best', () => {
    let seen = 0;
    fc.assert(
      fc.property(four, fc.double({ min: 0, max: 0.4, noNaN: true }), (signals, share) => {
        const near = (corner: Corner): CornerSignal => {
          const { value, expected, ...rest } = signals[corner];
          return { ...rest, expected, value: expected + share * rest.spread * Math.sign(value - expected) };
        };
        const found = patternOf(
          { LF: near('LF'), RF: near('RF'), LR: near('LR'), RR: near('RR') },
          reference,
        );
        expect(found.best.family).toBe('none');
        expect(found.lead).toBeLessThanOrEqual(Math.log(4) + 1e-9);
        seen += 1;
      }),
    );
    expect(seen).toBeGreaterThan(50);
  });

  // Kass and Raftery, Bayes Factors (1995): under 2 not worth more than a mention, 2 to 6 positive, 6 to 10 strong,
  // above that very strong; values from memory.
  it.each([
    [1.99, 'cannot-tell'],
    [2, 'positive'],
    [5.99, 'positive'],
    [6, 'strong'],
    [9.99, 'strong'],
    [10, 'very-strong'],
  ])('calls a lead of %s %s', (lead, sure) => {
    expect(surenessOf(lead)).toBe(sure);
  });
});
