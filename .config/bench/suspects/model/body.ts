import { axleOf, type Corner, corners } from '../../../../src/core/corner.ts';
import { type PerCorner, perCorner } from './per-corner.ts';
import type { Car } from './vehicle.ts';

/** How far a wheel goes before its corner meets a stop, mm, and how much stiffer that is than a spring. */
export const travel = 90;
const stopStiffness = 25;

/** Which way each corner goes by heave, pitch (nose up) and roll (left up). */
const motions: PerCorner<readonly [number, number, number]> = {
  LF: [1, 1, 1],
  RF: [1, 1, -1],
  LR: [1, -1, 1],
  RR: [1, -1, -1],
};

type Vector = readonly [number, number, number];

const determinant = ([a, b, c]: Vector, [d, e, f]: Vector, [g, h, i]: Vector): number =>
  a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);

/** Three equations with three unknowns by Cramer's rule; their matrix is symmetric, so that its rows are its columns. */
const solve = ([x, y, z]: readonly [Vector, Vector, Vector], right: Vector): Vector => {
  const whole = determinant(x, y, z);
  return [
    determinant(right, y, z) / whole,
    determinant(x, right, z) / whole,
    determinant(x, y, right) / whole,
  ];
};

/** Where a body stands at each corner: over the floor, and over its wheel, mm off nominal. */
export interface Stand {
  readonly floor: PerCorner<number>;
  readonly wheel: PerCorner<number>;
}

const stiffness = ({ springs }: Car, corner: Corner): number => springs[axleOf(corner)];

/** The stand with the least energy where some corners are on their stops: those pull towards the ends of their travel. */
const restOn = (car: Car, wanted: PerCorner<number>, stops: PerCorner<number>): Stand => {
  const rows: [number[], number[], number[]] = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
  ];
  const right: [number, number, number] = [0, 0, 0];
  const add = (direction: Vector, weight: number, target: number): void => {
    for (const row of [0, 1, 2] as const) {
      right[row] += weight * direction[row] * target;
      for (const column of [0, 1, 2] as const)
        rows[row][column] = (rows[row][column] ?? 0) + weight * direction[row] * direction[column];
    }
  };
  for (const corner of corners) {
    const tyre = car.tyre[corner];
    add(motions[corner], stiffness(car, corner), wanted[corner] + tyre);
    if (stops[corner] !== 0) add(motions[corner], stopStiffness, stops[corner] * travel + tyre);
  }
  // A bar of each axle resists the difference of its two wheels' travel, which is twice the roll less that of the tyres.
  const bar = (car.springs.bars * (car.springs.front + car.springs.rear)) / 4;
  add([0, 0, 2], bar, car.tyre.LF - car.tyre.RF);
  add([0, 0, 2], bar, car.tyre.LR - car.tyre.RR);
  const [first, second, third] = rows as unknown as [Vector, Vector, Vector];
  const [heave, pitch, roll] = solve([first, second, third], right);
  const floor = perCorner((corner) => {
    const [a, p, r] = motions[corner];
    return a * heave + p * pitch + r * roll;
  });
  return { floor, wheel: perCorner((corner) => floor[corner] - car.tyre[corner]) };
};

/**
 * Where a rigid body comes to rest on four springs with roll bars: the plane in which they hold the least energy. One
 * corner alone never moves; what its spring loses takes the neighbours with it and lifts the diagonal.
 *
 * @param wanted where each spring would stand by itself, mm off nominal
 */
export const standOn = (car: Car, wanted: PerCorner<number>): Stand => {
  let stops = perCorner(() => 0);
  for (let round = 0; round < 4; round += 1) {
    const stand = restOn(car, wanted, stops);
    const next = perCorner((corner) =>
      Math.abs(stand.wheel[corner]) > travel ? Math.sign(stand.wheel[corner]) : 0,
    );
    if (corners.every((corner) => next[corner] === stops[corner])) return stand;
    stops = next;
  }
  return restOn(car, wanted, stops);
};
