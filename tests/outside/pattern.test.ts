import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Corner, corners } from '../../src/core/corner.ts';
import { motionsOf } from '../../src/core/readings/contrasts.ts';
import {
  type CornerSignal,
  type CornerSignals,
  fitPatterns,
  patternOf,
  springShares,
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

describe('the pattern of four corners', () => {
  it('fits every model as well as a search over its one parameter does', () => {
    fc.assert(
      fc.property(four, (signals) => {
        const fits = fitPatterns(signals, reference);
        expect(fits).toHaveLength(16);
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
        const fits = fitPatterns(signals, reference);
        const fit = fits.find(({ name, place: at }) => name === 'spring' && at === place);
        // The middles of four equal parts from 1/3 to 0.7.
        const misfits = [1, 3, 5, 7].map((eighths) => {
          const shares = springShares(place, 1 / 3 + (eighths / 8) * (0.7 - 1 / 3));
          return gridSearch((amount) =>
            corners.reduce((sum, corner) => {
              const { value, expected, spread, sense } = signals[corner];
              return sum + ((value - expected - sense * amount * (shares[corner] ?? 0)) / spread) ** 2;
            }, 0),
          );
        });
        const least = Math.min(...misfits);
        const mean = misfits.reduce((sum, one) => sum + Math.exp((least - one) / 2), 0) / misfits.length;
        const bic = least - 2 * Math.log(mean) + Math.log(4);
        expect(Math.abs((fit?.bic ?? Number.NaN) - bic)).toBeLessThan(1e-6 * (1 + bic));
      }),
      { numRuns: 15 },
    );
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

/**
 * Four vertical springs at the corners of a rigid rectangle, half-track and half-wheelbase 1. Equilibrium of force and
 * of both moments when one spring's force falls by F: with stiffness k at each corner and bars that make roll stiffer by
 * a factor, heave z, pitch p and roll q follow from 4k·z = F, 4k·p = ±F, 4k·factor·q = ±F. Recomputed, no published
 * figures; the equations are those of any text on statics.
 */
describe('the body over a spring that loses force', () => {
  const ahead: Readonly<Record<Corner, 1 | -1>> = { LF: 1, RF: 1, LR: -1, RR: -1 };
  const left: Readonly<Record<Corner, 1 | -1>> = { LF: 1, RF: -1, LR: 1, RR: -1 };
  /** How far a corner goes down, in F/4k, when the spring of another loses F. */
  const sinks = (corner: Corner, lost: Corner, rollFactor = 1): number =>
    1 + ahead[corner] * ahead[lost] + (left[corner] * left[lost]) / rollFactor;

  it('balances: what the springs take up is what the corner lost, about both axes', () => {
    for (const lost of corners) {
      const force = (arm: (corner: Corner) => number): number =>
        corners.reduce((sum, corner) => sum + (arm(corner) * sinks(corner, lost)) / 4, 0);
      expect(force(() => 1)).toBeCloseTo(1, 12);
      expect(force((corner) => ahead[corner])).toBeCloseTo(ahead[lost], 12);
      expect(force((corner) => left[corner])).toBeCloseTo(left[lost], 12);
    }
  });

  it('sinks by 3F/4k there and by F/4k beside it, and rises by F/4k across', () => {
    expect(['LF', 'RF', 'LR', 'RR'].map((corner) => sinks(corner as Corner, 'LF'))).toEqual([3, 1, 1, -1]);
  });

  it.each([
    [1, 1 / 3],
    [2, 0.6],
  ])('with roll stiffer by %s the axle mate takes a share of %s', (factor, axleMate) => {
    for (const lost of corners) {
      const shares = springShares(lost, axleMate);
      for (const corner of corners)
        expect(shares[corner]).toBeCloseTo(sinks(corner, lost, factor) / sinks(lost, lost, factor), 12);
    }
  });

  it('shares 1, 0.6, 0.2 and −0.2 with doubled roll stiffness', () => {
    const { LF, RF, LR, RR } = springShares('LF', 0.6);
    expect([LF, RF, LR, RR]).toEqual([1, 0.6, 0.2, -0.2].map((share) => expect.closeTo(share, 12)));
  });

  it('has no warp, whatever the bars', () => {
    for (const axleMate of [1 / 3, 0.45, 0.6, 0.7])
      for (const lost of corners) {
        const { LF = 0, RF = 0, LR = 0, RR = 0 } = springShares(lost, axleMate);
        expect(motionsOf({ LF, RF, LR, RR }).warp).toBeCloseTo(0, 12);
      }
  });

  // Heights in millimetres: nothing electrical moves them.
  it.each([1, 1.5, 2, 2.8])('is found in heights, and at its corner, with roll stiffer by %s', (factor) => {
    for (const lost of corners) {
      const height = (corner: Corner): CornerSignal => ({
        value: 400 - (40 * sinks(corner, lost, factor)) / sinks(lost, lost, factor),
        expected: 400,
        spread: 5,
        sense: 1,
      });
      const found = patternOf(
        { LF: height('LF'), RF: height('RF'), LR: height('LR'), RR: height('RR') },
        null,
      );
      expect([found.best.family, found.best.place]).toEqual(['spring', lost]);
      expect(found.sure).not.toBe('cannot-tell');
      expect(found.best.amount).toBeLessThan(-35);
      expect(found.best.amount).toBeGreaterThan(-45);
      expect(found.weights['electrical-together']).toBe(0);
    }
  });
});
