import { canLift, tankAfter } from './air.ts';
import { type Stand, standOn } from './body.ts';
import { hasLevelled, levelled, levellingOf } from './levelling.ts';
import { type PerCorner, perCorner } from './per-corner.ts';
import type { Car } from './vehicle.ts';

/** Hours that a vehicle stands from the evening on which it came in to the morning. */
export const night = 10;
/** Degrees by which the morning is colder than the day. */
export const cooler = -4;

/** Effective length of a column of air in a spring, mm; from memory. */
const column = 250;

/** How the body stands, and where each spring would by itself, mm off nominal. */
export interface Standing extends Stand {
  readonly springs: PerCorner<number>;
}

const on = (car: Car, springs: PerCorner<number>): Standing => ({ ...standOn(car, springs), springs });

/** A moment of the visit, in the order in which they come. */
export type Moment = 'evening' | 'late' | 'morning' | 'key-on' | 'running';

export const hoursOf: Readonly<Record<Moment, number>> = {
  evening: 0,
  late: 4,
  morning: night,
  'key-on': night + 1,
  running: night + 1.3,
};

/** How many hours a vehicle has stood whose levelling stopped before it came in. */
const stopped = 40;

/** °C by which the air is warmer than in the evening. */
export const warmingAt = (moment: Moment): number => (cooler * Math.min(hoursOf[moment], night)) / night;

/** Where the springs would stand by themselves some hours after air was last moved. */
const after = (car: Car, from: PerCorner<number>, hours: number, warming: number): PerCorner<number> => {
  const warmed = (column * warming) / (273 + car.air);
  return perCorner((corner) => {
    if (!car.fitted.includes(corner)) return from[corner];
    // A spring that has lost its air has no more to lose.
    const moved = (car.passes[corner] - car.sag[corner]) * hours;
    return Math.max(-150, from[corner] + moved + warmed);
  });
};

/** Where the springs stood when the vehicle came in: where levelling put them, or where it left them days ago. */
const cameIn = (car: Car): PerCorner<number> => {
  if (!hasLevelled(car)) return after(car, car.lean, stopped, 0);
  return levelled(car, car.lean, { up: canLift(car, car.tank.psi, true), down: !car.compressor.shut });
};

/**
 * How the body stands at a moment: at night it sinks by what leaks and cools; with the key on levelling, where it works,
 * brings it back from the tank, and with the engine on by the compressor.
 */
export const standAt = (car: Car, moment: Moment): Standing => {
  const hours = hoursOf[moment];
  const stood = after(car, cameIn(car), hours, warmingAt(moment));
  const keyed = moment === 'key-on' || moment === 'running';
  if (!keyed || levellingOf(car) !== 'active') return on(car, stood);
  const psi = tankAfter(car, hours, warmingAt(moment));
  const up = canLift(car, psi, moment === 'running');
  return on(car, levelled(car, stood, { up, down: !car.compressor.shut }));
};
