import type { Axle, Corner } from '../../../../../src/core/corner.ts';
import type { Draw } from '../draw.ts';
import type { Car } from '../vehicle.ts';

/** Where on the vehicle a fault was drawn: a corner, and the axle that it is on. */
export interface Spot {
  readonly corner: Corner;
  readonly axle: Axle;
}

/** One way in which a part fails. */
export interface Fault {
  /** `sensor: stuck` */
  readonly name: string;
  /** What is at fault: `sensor`, at the corner that was drawn. */
  readonly suspect: string;
  /** What is worked on where that has another name: `body` of `uneven-body`. */
  readonly component?: string;
  readonly at: 'corner' | 'axle' | 'vehicle';
  /** How often it is met against the others; over all places where it is at one. Judgement, from memory. */
  readonly weight: number;
  /** What no reading of this vehicle tells from it by physics; empty where it can be told. */
  readonly like: (car: Car) => readonly string[];
  /** Only where the vehicle has such a part. */
  readonly needs?: Car['layout'];
  /** How often an eye sees it that looks at the part. Judgement, from memory. */
  readonly visible: number;
  readonly apply: (car: Car, spot: Spot, draw: Draw) => Car;
}

/** The same vehicle, driven until it came in: levelling has worked on it, whoever switched it off since. */
export const driven = (car: Car): Car => ({ ...car, levelling: { ...car.levelling, worked: true } });
