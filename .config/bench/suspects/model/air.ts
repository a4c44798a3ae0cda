import { postVolts } from './supply.ts';
import { type Car, type Compressor, isBroken } from './vehicle.ts';

/** psi of the air around. */
const around = 14.7;

/** Share of the rated pressure at which a compressor's own relief opens. */
const relief = 1.6;

/** psi that a full flow loses in a good dryer. */
const dryerLoss = 3;

/** psi in a tank of 5 litres that lift one spring by a millimetre; from a column of 3 litres at some 6 bar, from memory. */
export const psiPerMm = 0.21;

/**
 * Tank pressure so many hours after it was shut in, psi: what leaks is in proportion to the pressure (its rate counts
 * at 120 psi), a passing valve takes or gives what springs gain or lose, and what is left follows the absolute
 * temperature.
 *
 * @param warming °C since then
 */
export const tankAfter = (car: Car, hours: number, warming: number): number => {
  const { psi, leak, volume } = car.tank;
  const passed = Object.values(car.passes).reduce((sum, rate) => sum + rate, 0) * hours;
  const left = psi * Math.exp((-leak / 120) * hours) - passed * psiPerMm * (5 / volume);
  return (Math.max(0, left) + around) * ((273 + car.air + warming) / (273 + car.air)) - around;
};

/** The pressure as the vehicle's own sensor shows it. */
export const shownPressure = ({ pressureSensor: { gain, offset } }: Car, psi: number): number =>
  Math.max(0, psi * gain + offset);

/** What a compressor does against a tank. */
export interface Run {
  /** At its plug. */
  readonly volts: number;
  readonly amps: number;
  /** psi a minute that the tank gains. */
  readonly gain: number;
}

/** Volts that its winding takes for itself at its rated current. */
const windingVolts = 3;

/** Current by the pressure at its head; worn rings let part of the load by. */
const ampsAt = ({ amps, rated, health }: Compressor, head: number): number =>
  amps * (0.35 + 0.65 * (head / rated) * (0.6 + 0.4 * health));

/** psi a minute that leave its head, with the speed that its volts give. */
const flowAt = (
  one: Compressor,
  head: number,
  post: number,
): { flow: number; volts: number; amps: number } => {
  const amps = ampsAt(one, head);
  const volts = Math.max(0, post - amps * one.feed);
  const speed = Math.max(0, (volts - windingVolts * (amps / one.amps)) / (13.5 - windingVolts));
  const filling = Math.max(0, 1.1 - 0.25 * (head / one.rated));
  return { flow: one.rate * one.health * filling * speed, volts, amps };
};

/**
 * One compressor against a tank, with the engine running: its head stands at the pressure at which what it moves is
 * what goes through the dryer and out of an open exhaust valve.
 */
export const runAgainst = (car: Car, tankPsi: number): Run => {
  const { compressor: one } = car;
  const post = postVolts(car, 'running');
  if (isBroken(one.feed)) return { volts: 0, amps: 0, gain: 0 };
  if (one.dead !== 'no') return { volts: post, amps: 0, gain: 0 };
  const through = (head: number): number =>
    Math.max(0, head - tankPsi) * (one.rate / dryerLoss) * one.dryer ** 3;
  const lost = (head: number): number => one.exhaust * one.rate * 4 * (head / one.rated);
  let [low, high] = [0, relief * one.rated];
  for (let round = 0; round < 40; round += 1) {
    const head = (low + high) / 2;
    if (flowAt(one, head, post).flow > through(head) + lost(head)) low = head;
    else high = head;
  }
  const { volts, amps } = flowAt(one, low, post);
  return { volts, amps, gain: Math.max(0, through(low)) - (car.tank.leak * tankPsi) / 120 / 60 };
};

/** A run that is timed: how the tank rises minute by minute from a pressure to which it was let down. */
export const timedRun = (
  car: Car,
  from: number,
  minutes: number,
): readonly (Run & { readonly psi: number })[] => {
  const points: (Run & { readonly psi: number })[] = [];
  let psi = from;
  for (let minute = 0; minute <= minutes; minute += 1) {
    const run = runAgainst(car, psi);
    points.push({ ...run, psi });
    psi += run.gain;
  }
  return points;
};

/** The pressure from which filling is timed. */
export const timedFrom = ({ compressor }: Car): number => Math.round(0.45 * compressor.rated);

/** What a run of two minutes gains, psi a minute. */
const paceOf = (car: Car): number => {
  const from = timedFrom(car);
  return ((timedRun(car, from, 2).at(-1)?.psi ?? from) - from) / 2;
};

/** Whether it fills as a good one of its kind does on this vehicle, give or take a third. */
export const fillsInTime = (car: Car): boolean => {
  const good: Car = {
    ...car,
    tank: { ...car.tank, leak: 0 },
    compressor: { ...car.compressor, health: 1, feed: 0.012, dead: 'no', dryer: 1, exhaust: 0 },
    charging: { ...car.charging, works: true, setPoint: 14, rests: null },
  };
  return paceOf(car) >= 0.67 * paceOf(good);
};

/** Whether air can lift the body: from the tank as it stands, or with the engine running from the compressor. */
export const canLift = (car: Car, psi: number, engine: boolean): boolean => {
  const need = car.layout === 'four-corner-air' ? 75 : Number.POSITIVE_INFINITY;
  return psi > need || (engine && runAgainst(car, car.layout === 'four-corner-air' ? need : 20).gain > 2);
};
