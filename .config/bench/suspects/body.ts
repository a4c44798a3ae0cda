import type { Corner } from '../../../src/core/corner.ts';
import { type Car, type PerCorner, perCorner } from './vehicle.ts';

/** How far a corner goes before it meets its stop, mm. */
const travel = 90;

const clip = (mm: number): number => Math.max(-travel, Math.min(travel, mm));

/**
 * What a rigid body makes of corners that are asked to move apart: heave, pitch and roll remain, and the warp is left
 * in the springs.
 *
 * @param wanted mm at each corner
 */
export const rigid = (wanted: PerCorner<number>): PerCorner<number> => {
  const warp = (wanted.LF - wanted.RF - wanted.LR + wanted.RR) / 4;
  const sign = { LF: 1, RF: -1, LR: -1, RR: 1 };
  return perCorner((corner) => wanted[corner] - sign[corner] * warp);
};

/** What the springs of an axle with steel at its front make of it: a corner moves alone, its pair follows a little. */
const assisted = (wanted: PerCorner<number>): PerCorner<number> => ({
  LF: 0,
  RF: 0,
  LR: 0.85 * wanted.LR + 0.1 * wanted.RR,
  RR: 0.85 * wanted.RR + 0.1 * wanted.LR,
});

/** How far each corner has gone down after some hours at rest, mm, 0 or below. */
export const sagged = (car: Car, hours: number): PerCorner<number> => {
  const lost = perCorner((corner) => -Math.min(travel, car.sag[corner] * hours));
  return (car.layout === 'four-corner-air' ? rigid : assisted)(lost);
};

/** Where the body stands at each corner off its nominal height with nothing levelling it, mm. */
export const unlevelled = (car: Car, hours: number): PerCorner<number> => {
  const sag = sagged(car, hours);
  return perCorner((corner) => clip(car.lean[corner] + sag[corner]));
};

/**
 * Where levelling brings it: each corner to where its sensor reads its target, as far as a rigid body and the springs
 * go.
 *
 * @param astray how far each sensor reads from the truth, mm
 */
export const levelled = (car: Car, astray: PerCorner<number>): PerCorner<number> => {
  const asked = perCorner((corner) => clip(car.target[corner] - astray[corner]));
  const given = car.layout === 'four-corner-air' ? rigid(asked) : { ...asked, LF: 0, RF: 0 };
  return perCorner((corner: Corner) => given[corner] + car.lean[corner] * 0.3);
};
