import { describe, expect, it } from 'vitest';
import { corners } from '../../src/core/corner.ts';
import { motionsOf, motionWeights } from '../../src/core/readings/contrasts.ts';

/**
 * Montgomery, Design and Analysis of Experiments, problem 6.1, its eight cells collapsed over one factor: cell means
 * seen in two agreeing transcriptions, contrasts recomputed. The book prints main effects with the opposite sign and
 * at twice the size.
 */
const cells = { LF: 32.8333, RF: 42.0, LR: 48.5, RR: 40.0 };

describe('four corners as a two-by-two factorial', () => {
  it.each([
    ['heave', 40.8333],
    ['pitch', -3.416_67],
    ['roll', -0.166_67],
    ['warp', -4.416_67],
  ] as const)('%s is %s (Montgomery, problem 6.1)', (motion, value) => {
    expect(motionsOf(cells)[motion]).toBeCloseTo(value, 4);
  });

  // The residuals of the least-squares plane through four corners of a rectangle are the warp, in its four signs.
  it('leaves ± warp at every corner of the best plane', () => {
    const { heave, pitch, roll, warp } = motionsOf(cells);
    const sign = (motion: 'pitch' | 'roll' | 'warp', corner: (typeof corners)[number]): number =>
      Math.sign(motionWeights[motion][corner]);
    for (const corner of corners) {
      const plane = heave + sign('pitch', corner) * pitch + sign('roll', corner) * roll;
      expect(cells[corner] - plane).toBeCloseTo(sign('warp', corner) * warp, 10);
    }
    expect(Math.abs(warp)).toBeCloseTo(4.416_67, 4);
  });
});
