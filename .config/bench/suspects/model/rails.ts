import { type Axle, axleOf, type Corner } from '../../../../src/core/corner.ts';
import { moduleSupply } from './supply.ts';
import type { Car } from './vehicle.ts';

/** Leakage of the module's inputs, ohms: what a broken wire leaves. */
const leakage = 2e6;

/** The nodes that the sensors share, volts against the module's own ground. */
export interface Rails {
  /** At the module, before the shared wire. */
  readonly regulator: number;
  /** At the plugs. */
  readonly reference: number;
  /** At the plugs of each axle. */
  readonly ground: Readonly<Record<Axle, number>>;
  /** What all of the module stands above battery negative. */
  readonly lift: number;
}

/** A sensor that has lost its supply or its ground takes nothing. */
export const isFed = ({ reference, ground }: Car['wiring'][Corner]): boolean =>
  reference === 'whole' && ground === 'whole';

/** Whether the module works at all: one without its feed or ground is dead. */
export const boots = (car: Car): boolean => moduleSupply(car, 'key-on').pins > 6;

/**
 * The divider of regulator, shared wire, sensors, each axle's splice and the shared ground. Beyond its limit the
 * regulator gives no more current and its volts fall.
 *
 * @param without corners whose plugs are off
 */
export const railsOf = (car: Car, without: readonly Corner[] = []): Rails => {
  const siemens = (axle: Axle): number =>
    car.fitted.reduce(
      (sum, corner) =>
        axleOf(corner) !== axle || without.includes(corner) || !isFed(car.wiring[corner])
          ? sum
          : sum + 1 / car.sensor[corner].ohms,
      1 / leakage,
    );
  const splice = (axle: Axle): number => Math.min(car.sensorGround[axle], leakage);
  const branch = {
    front: 1 / siemens('front') + splice('front'),
    rear: 1 / siemens('rear') + splice('rear'),
  };
  const sensors = 1 / (1 / branch.front + 1 / branch.rear);
  const shared = Math.min(car.sensorGround.shared, leakage);
  const wire = Math.min(car.reference.ohms, leakage);
  const whole = wire + sensors + shared;
  const able = boots(car) ? car.reference.volts : 0;
  const current = Math.min(able / whole, car.reference.limit);
  const across = current * sensors;
  const ground = (axle: Axle): number => current * shared + (across / branch[axle]) * splice(axle);
  return {
    regulator: current * whole,
    reference: current * (sensors + shared),
    ground: { front: ground('front'), rear: ground('rear') },
    lift: boots(car) ? moduleSupply(car, 'key-on').groundDrop : 0,
  };
};

/** What a corner's plug has between its own supply and its own ground, volts. */
export const plugSupply = (car: Car, corner: Corner, rails: Rails): number =>
  isFed(car.wiring[corner]) ? rails.reference - rails.ground[axleOf(corner)] : 0;

/** What is lost between the ground at a plug and battery negative, volts. */
export const groundAtPlug = (car: Car, corner: Corner, rails: Rails): number =>
  car.wiring[corner].ground === 'broken' ? rails.reference : rails.ground[axleOf(corner)] + rails.lift;
