import type { Corner } from '../../../../src/core/corner.ts';
import { canLift, tankAfter } from './air.ts';
import { type Stand, standOn } from './body.ts';
import { perCorner } from './per-corner.ts';
import { boots } from './rails.ts';
import { signalOf } from './signals.ts';
import { hoursOf, standAt, warmingAt } from './stand.ts';
import { type Car, goodGain } from './vehicle.ts';

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
  const obeys = boots(car) && car.levelling.mode === 'normal' && !car.module.codes.includes('not-programmed');
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
const visibly = 15;

/** By how much a command moves the corners of a vehicle that have air, mm in the mean. */
export const movedBy = ({ fitted }: Car, from: Stand, to: Stand): number =>
  fitted.reduce((sum, corner) => sum + to.wheel[corner] - from.wheel[corner], 0) / fitted.length;

/** Which way a signal goes against what its sensor should do as the body rises, or not at all. */
const directionOf = (car: Car, corner: Corner): number => {
  const level = perCorner(() => 0);
  const raised = perCorner(() => 30);
  const change = signalOf(car, corner, raised).shown - signalOf(car, corner, level).shown;
  return Math.abs(change) < 0.15 ? 0 : Math.sign(change * goodGain(car, corner));
};

/** What a technician says of a command to raise and lower, with tape and signals watched. */
export const outcomeOfCommand = (car: Car): string => {
  const { low, high } = commanded(car);
  if (movedBy(car, low, high) < visibly) return 'does-not-move';
  if (car.compressor.shut) return 'rises-only';
  const ways = car.fitted.map((corner) => directionOf(car, corner));
  if (ways.some((way) => way < 0)) return 'moves-signal-wrong-way';
  return ways.some((way) => way === 0) ? 'moves-signal-still' : 'moves-and-signal-follows';
};
