import { canLift, tankAfter } from './air.ts';
import { type Stand, standOn } from './body.ts';
import { perCorner } from './per-corner.ts';
import { boots } from './rails.ts';
import { hoursOf, standAt, warmingAt } from './stand.ts';
import type { Car } from './vehicle.ts';

/** mm that a command asks for, up or down. */
const asked = 40;

/** What a command to raise and lower makes of the body. */
export interface Commanded {
  readonly low: Stand;
  readonly high: Stand;
}

/** How the body stands after a command to lower it, and after one to raise it; where nothing answers it stays. */
export const commanded = (car: Car): Commanded => {
  const { springs } = standAt(car, 'key-on');
  const obeys =
    boots(car) &&
    car.levelling.mode === 'normal' &&
    !car.module.codes.some((means) => means.startsWith('not-pro') || means === 'not-configured');
  const up = obeys && canLift(car, tankAfter(car, hoursOf['key-on'], warmingAt('key-on')), true);
  const down = obeys && !car.compressor.shut;
  const moved = (mm: number): Stand =>
    standOn(
      car,
      perCorner((corner) => springs[corner] + (car.fitted.includes(corner) ? mm : 0)),
    );
  return { low: moved(down ? -asked : 0), high: moved(up ? asked : 0) };
};

/** mm by which the body must go on command to be seen. */
export const visibly = 15;

/** By how much a command moves the corners of a vehicle that have air, mm in the mean. */
export const movedBy = ({ fitted }: Car, from: Stand, to: Stand): number =>
  fitted.reduce((sum, corner) => sum + to.wheel[corner] - from.wheel[corner], 0) / fitted.length;
