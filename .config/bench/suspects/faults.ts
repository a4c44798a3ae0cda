import type { Corner } from '../../../src/core/corner.ts';
import { airFaults } from './faults-of-air.ts';
import { bodyFaults } from './faults-of-body.ts';
import { signalFaults } from './faults-of-signals.ts';
import { supplyFaults } from './faults-of-supply.ts';
import type { Draw } from './random.ts';
import { type Car, goodCar } from './vehicle.ts';

/** One way in which a part fails. */
export interface Fault {
  /** `sensor: stuck` */
  readonly name: string;
  /** The suspect that it is: `sensor`, at the corner that was drawn. */
  readonly suspect: string;
  readonly atCorner: boolean;
  /** How often it is met against the others; over all corners where it is at one. Judgement, from memory. */
  readonly weight: number;
  /** Suspects whose readings do not differ from it by physics; empty where it can be told. */
  readonly like: readonly string[];
  /** Only where the vehicle has such a part. */
  readonly needs?: 'four-corner-air';
  readonly apply: (car: Car, corner: Corner, draw: Draw) => Car;
}

export const faults: readonly Fault[] = [...signalFaults, ...supplyFaults, ...airFaults, ...bodyFaults];

/** One vehicle of the fleet, and what is wrong with it. */
export interface Member {
  readonly number: number;
  readonly car: Car;
  /** Null for one that is healthy. */
  readonly fault: Fault | null;
  /** `sensor.LR`; null for one that is healthy. */
  readonly truth: string | null;
}

/** One vehicle in eight has nothing wrong with it. */
const healthyShare = 0.125;

/** The name of what is wrong; with sensors on one axle only, their ground is that axle's. */
const truthOf = ({ suspect, atCorner }: Fault, corner: Corner, { layout }: Car): string => {
  if (suspect === 'sensor-ground' && layout === 'rear-air-assist') return `${suspect}.rear`;
  return atCorner ? `${suspect}.${corner}` : suspect;
};

/** A vehicle with a fault of its own; the same for the same number. */
export const drawMember = (number: number, draw: Draw): Member => {
  const car = goodCar(draw);
  if (draw.chance(healthyShare)) return { number, car, fault: null, truth: null };
  const able = faults.filter(({ needs }) => needs === undefined || needs === car.layout);
  const fault = draw.weighted(able);
  const corner = draw.pick(car.fitted);
  return { number, car: fault.apply(car, corner, draw), fault, truth: truthOf(fault, corner, car) };
};
