import { type Corner, corners } from '../corner.ts';

export type Motion = 'heave' | 'pitch' | 'roll' | 'warp';

/**
 * The four orthogonal contrasts of a body's corners. Heave is the mean; pitch and roll are half of front less rear
 * and of left less right; warp is what no rigid body on a flat floor has, a quarter of the diagonals' difference.
 * Source: the effects of a two-by-two factorial (Montgomery, Design and Analysis of Experiments, chapter 6).
 */
export const motionWeights: Readonly<Record<Motion, Readonly<Record<Corner, number>>>> = {
  heave: { LF: 0.25, RF: 0.25, LR: 0.25, RR: 0.25 },
  pitch: { LF: 0.25, RF: 0.25, LR: -0.25, RR: -0.25 },
  roll: { LF: 0.25, RF: -0.25, LR: 0.25, RR: -0.25 },
  warp: { LF: 0.25, RF: -0.25, LR: -0.25, RR: 0.25 },
};

/** Heave, pitch, roll and warp of four values at the corners, in their unit. Nose up and left side up are positive. */
export const motionsOf = (at: Readonly<Record<Corner, number>>): Readonly<Record<Motion, number>> => {
  const sum = (motion: Motion): number =>
    corners.reduce((total, corner) => total + motionWeights[motion][corner] * at[corner], 0);
  return { heave: sum('heave'), pitch: sum('pitch'), roll: sum('roll'), warp: sum('warp') };
};
