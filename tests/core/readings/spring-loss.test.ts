import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Corner, corners } from '../../../src/core/corner.ts';
import { motionsOf } from '../../../src/core/readings/contrasts.ts';
import { fitSpringLoss, foundSpring, springShares } from '../../../src/core/readings/spring-loss.ts';

const standard = 0.25;
const four = (LF: number, RF: number, LR: number, RR: number) => ({
  LF: { value: LF, standard },
  RF: { value: RF, standard },
  LR: { value: LR, standard },
  RR: { value: RR, standard },
});

const corner = fc.constantFrom<Corner>(...corners);
const rollPart = fc.double({ min: 0.3, max: 1, noNaN: true });

describe('the shares of one lost spring', () => {
  it('has none of the warp that a rigid body cannot have, however stiff its bars are', () => {
    fc.assert(
      fc.property(corner, rollPart, (at, part) => {
        expect(motionsOf(springShares(at, part)).warp).toBeCloseTo(0, 12);
        expect(springShares(at, part)[at]).toBe(1);
      }),
    );
  });
});

describe('the spring that is found', () => {
  it('is the one that loses, with and without roll bars, and never a neighbour', () => {
    fc.assert(
      fc.property(corner, rollPart, fc.double({ min: 3, max: 30, noNaN: true }), (at, part, amount) => {
        const shares = springShares(at, part);
        const moves = four(
          -amount * shares.LF,
          -amount * shares.RF,
          -amount * shares.LR,
          -amount * shares.RR,
        );
        const fits = fitSpringLoss(moves);
        // Between two of the stiffnesses that are tried a large movement fits neither; the nearest still names it.
        expect(fits.find(({ family }) => family === 'spring')?.place).toBe(at);
        const found = foundSpring(fits);
        if (found) expect(found.corner).toBe(at);
      }),
    );
  });

  it('tells one spring from a pair, from all, from nothing and from a tape that was misread', () => {
    const family = (LF: number, RF: number, LR: number, RR: number): string =>
      fitSpringLoss(four(LF, RF, LR, RR))[0].family;
    expect(family(-1, 1, -3, -1)).toBe('spring');
    expect(family(0, 0, -3, -3)).toBe('axle');
    expect(family(-3, 0, -3, 0)).toBe('side');
    expect(family(-3, -3, -3, -3)).toBe('together');
    expect(family(0.1, -0.1, 0.2, 0)).toBe('none');
    expect(family(0, 0, -5, 0)).toBe('corner');
  });

  it('is none where a pair goes down, where nothing does, and where two corners move as no spring moves them', () => {
    for (const moves of [four(0, 0, -3, -3), four(0, 0, 0, 0), four(-6, 2, 2, -9)])
      expect(foundSpring(fitSpringLoss(moves))).toBeNull();
  });

  it('tells the amount at the corner', () => {
    const found = foundSpring(fitSpringLoss(four(-1, 1, -3, -1)));
    expect(found?.corner).toBe('LR');
    expect(found?.fit.amount).toBeCloseTo(-3, 9);
    expect(found?.fit.at.RF).toBeCloseTo(1, 9);
  });

  it('has weights that add up to one', () => {
    const value = fc.double({ min: -20, max: 20, noNaN: true });
    fc.assert(
      fc.property(value, value, value, value, (...moves) => {
        const fits = fitSpringLoss(four(...moves));
        expect(fits.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 9);
      }),
    );
  });

  it('fits exact readings, too', () => {
    const exact = { value: 0, standard: 0 };
    const [best] = fitSpringLoss({ LF: exact, RF: exact, LR: exact, RR: exact });
    expect(best.family).toBe('none');
  });
});
