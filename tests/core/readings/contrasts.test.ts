import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { corners } from '../../../src/core/corner.ts';
import { type Motion, motionsOf, motionWeights } from '../../../src/core/readings/contrasts.ts';

const height = fc.double({ min: -500, max: 500, noNaN: true });
const four = fc.record({ LF: height, RF: height, LR: height, RR: height });
const motions = Object.keys(motionWeights) as Motion[];

describe('heave, pitch, roll and warp', () => {
  it('are orthogonal, and tell the four heights again', () => {
    for (const a of motions) {
      for (const b of motions) {
        const product = corners.reduce(
          (sum, corner) => sum + motionWeights[a][corner] * motionWeights[b][corner],
          0,
        );
        expect(product).toBe(a === b ? 0.25 : 0);
      }
    }
    fc.assert(
      fc.property(four, (at) => {
        const found = motionsOf(at);
        for (const corner of corners) {
          const again = motions.reduce(
            (sum, motion) => sum + 4 * motionWeights[motion][corner] * found[motion],
            0,
          );
          expect(again).toBeCloseTo(at[corner], 9);
        }
      }),
    );
  });

  it('put a shift of all four into heave and nowhere else', () => {
    fc.assert(
      fc.property(four, height, (at, shift) => {
        const before = motionsOf(at);
        const moved = { LF: at.LF + shift, RF: at.RF + shift, LR: at.LR + shift, RR: at.RR + shift };
        const after = motionsOf(moved);
        expect(after.heave).toBeCloseTo(before.heave + shift, 9);
        for (const motion of ['pitch', 'roll', 'warp'] as const)
          expect(after[motion]).toBeCloseTo(before[motion], 9);
      }),
    );
  });

  it('find no warp in a plane, however it lies', () => {
    fc.assert(
      fc.property(height, height, height, (middle, nose, left) => {
        const plane = {
          LF: middle + nose + left,
          RF: middle + nose - left,
          LR: middle - nose + left,
          RR: middle - nose - left,
        };
        expect(motionsOf(plane)).toMatchObject({
          heave: expect.closeTo(middle, 9),
          pitch: expect.closeTo(nose, 9),
          roll: expect.closeTo(left, 9),
          warp: expect.closeTo(0, 9),
        });
      }),
    );
  });

  it('find a quarter of what one corner alone is off', () => {
    expect(motionsOf({ LF: 20, RF: 0, LR: 0, RR: 0 }).warp).toBe(5);
    expect(motionsOf({ LF: 0, RF: 20, LR: 0, RR: 0 }).warp).toBe(-5);
  });

  it('turn their sign where left and right, or front and rear, change places', () => {
    fc.assert(
      fc.property(four, ({ LF, RF, LR, RR }) => {
        const { heave, pitch, roll, warp } = motionsOf({ LF, RF, LR, RR });
        const mirrored = motionsOf({ LF: RF, RF: LF, LR: RR, RR: LR });
        const turned = motionsOf({ LF: LR, RF: RR, LR: LF, RR: RF });
        const close = (value: number) => expect.closeTo(value, 9);
        expect(mirrored).toEqual({
          heave: close(heave),
          pitch: close(pitch),
          roll: close(-roll),
          warp: close(-warp),
        });
        expect(turned).toEqual({
          heave: close(heave),
          pitch: close(-pitch),
          roll: close(roll),
          warp: close(-warp),
        });
      }),
    );
  });
});
