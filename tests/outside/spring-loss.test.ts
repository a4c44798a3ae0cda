import fc from 'fast-check';
import { inv, type Matrix, matrix, multiply, transpose } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { type Corner, corners } from '../../src/core/corner.ts';
import { columnChange } from '../../src/core/readings/air-column.ts';
import { springShares } from '../../src/core/readings/spring-loss.ts';

/** Where each spring stands: +1 to the front and to the left. Heave, pitch and roll are the body's three freedoms. */
const stands: Readonly<Record<Corner, readonly [number, number, number]>> = {
  LF: [1, 1, 1],
  RF: [1, 1, -1],
  LR: [1, -1, 1],
  RR: [1, -1, -1],
};

/**
 * How the corners of a rigid rectangle on four vertical springs move where a force acts at one of them: the stiffness
 * matrix of heave, pitch and roll, solved. Roll bars add to the roll's stiffness alone.
 *
 * @param bars stiffness of the bars as a share of the springs' own in roll
 */
const byStatics = (at: Corner, bars: number): Readonly<Record<Corner, number>> => {
  const geometry = matrix(corners.map((corner) => [...stands[corner]]));
  const stiffness = multiply(transpose(geometry), geometry) as Matrix;
  stiffness.set([2, 2], stiffness.get([2, 2]) * (1 + bars));
  const force = matrix([...stands[at]]);
  const moves = multiply(geometry, multiply(inv(stiffness), force)) as Matrix;
  const by = (corner: Corner): number =>
    moves.get([corners.indexOf(corner)]) / moves.get([corners.indexOf(at)]);
  return { LF: by('LF'), RF: by('RF'), LR: by('LR'), RR: by('RR') };
};

describe('a rigid body that loses the force of one spring', () => {
  it.each(corners)('moves its corners by the shares that statics give: %s', (at) => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 2, noNaN: true }), (bars) => {
        const statics = byStatics(at, bars);
        const shares = springShares(at, 1 / (1 + bars));
        for (const corner of corners) expect(shares[corner]).toBeCloseTo(statics[corner], 12);
      }),
    );
  });

  it('moves by 1, 1/3, 1/3 and −1/3, and with doubled roll stiffness by 1, 0.6, 0.2 and −0.2', () => {
    const plain = springShares('LR', 1);
    expect([plain.LR, plain.RR, plain.LF, plain.RF].map((one) => one.toFixed(4))).toEqual([
      '1.0000',
      '0.3333',
      '0.3333',
      '-0.3333',
    ]);
    const barred = springShares('LR', 0.5);
    expect(barred.RR).toBeCloseTo(0.6, 12);
    expect(barred.LF).toBeCloseTo(0.2, 12);
    expect(barred.RF).toBeCloseTo(-0.2, 12);
  });

  it('goes down 3F/4k at that corner', () => {
    // Heave, pitch and roll each take F/4k: the unit force on unit springs moves its own corner by three quarters.
    const geometry = matrix(corners.map((corner) => [...stands[corner]]));
    const stiffness = multiply(transpose(geometry), geometry) as Matrix;
    const moves = multiply(geometry, multiply(inv(stiffness), matrix([...stands.LF]))) as Matrix;
    expect(moves.get([0])).toBeCloseTo(0.75, 12);
  });
});

describe('an air column at constant load', () => {
  it('is as long as its absolute temperature has it (Charles, V ∝ T): 9 mm of 250 for 10 °C', () => {
    // 250 mm at 15 °C are 250 · 278.15 / 288.15 = 241.324 mm at 5 °C.
    expect(columnChange(250, 15, 5)).toBeCloseTo(241.324 - 250, 3);
    expect(Math.round(-columnChange(250, 15, 5))).toBe(9);
    expect(250 + columnChange(250, 20, -10)).toBeCloseTo((250 * 263.15) / 293.15, 9);
  });
});

describe('the χ² that three free corners exceed once in twenty', () => {
  it('is 7.815', () => {
    // Density of χ² with three degrees of freedom, √x·e^(−x/2)/√(2π), by Simpson's rule.
    const density = (x: number): number => (Math.sqrt(x) * Math.exp(-x / 2)) / Math.sqrt(2 * Math.PI);
    const steps = 200_000;
    const width = 7.815 / steps;
    let sum = density(0) + density(7.815);
    for (let i = 1; i < steps; i += 1) sum += (i % 2 === 1 ? 4 : 2) * density(i * width);
    expect((sum * width) / 3).toBeCloseTo(0.95, 4);
  });
});
