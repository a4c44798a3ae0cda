import { type Car, isBroken } from './vehicle.ts';

/** `loaded` is running with every consumer on and a raised idle. */
export type Running = 'key-on' | 'cranking' | 'running' | 'loaded';

/** Volts of a rested battery by its state of charge, at the ends and between; common tables, from memory. */
const restVolts = {
  flooded: [11.7, 12.0, 12.2, 12.4, 12.65],
  agm: [11.8, 12.0, 12.3, 12.6, 12.88],
} as const;

/** Volts of a battery that nothing loads or charges. */
export const restingVolts = ({ battery }: Car): number => {
  const table = restVolts[battery.kind];
  const place = Math.max(0, Math.min(4, battery.charge * 4));
  const below = Math.min(3, Math.floor(place));
  const from = table[below] ?? 0;
  return from + ((table[below + 1] ?? 0) - from) * (place - below) + battery.offset;
};

/** Ohms inside a battery: more in the cold (1.2 % a degree), and twice as much when it is empty. */
export const batteryOhms = ({ battery, air }: Car): number =>
  battery.ohms * (1 + 0.012 * Math.max(0, 25 - air)) * (1 + (1 - battery.charge));

/** What a starter draws: more of a stiff engine in the cold. */
const starterAmps = ({ starterAmps: amps, air }: Car): number => amps * (1 + 0.004 * Math.max(0, 20 - air));

/** No regulator goes further than this for the temperature, volts. */
const coldest = 15.1;
const hottest = 13.55;

/** Its set point, less what the temperature and a computer take off; a battery that is low pulls it down a little. */
const chargingVolts = ({ charging, battery, air }: Car, state: Running): number => {
  const { setPoint, perDegree, sags, rests } = charging;
  const compensated = setPoint - perDegree * (air - 25);
  // What is broken is not held within what a good one keeps to.
  const held =
    setPoint < hottest || setPoint > coldest
      ? compensated
      : Math.max(hottest, Math.min(coldest, compensated));
  const loaded = state === 'loaded' ? sags : 0;
  const resting = state === 'running' ? (rests ?? 0) : 0;
  return held - loaded - resting - 0.15 * Math.max(0, 0.7 - battery.charge);
};

/** Volts at the posts; the key-on load is some 8 A, and a generator that works holds its set point. */
export const postVolts = (car: Car, state: Running): number => {
  const resting = restingVolts(car);
  if (state === 'cranking') return Math.max(4, resting - starterAmps(car) * batteryOhms(car));
  if (state === 'key-on') return resting - 8 * batteryOhms(car) - 0.05;
  if (!car.charging.works) return resting - (state === 'loaded' ? 55 : 25) * batteryOhms(car) - 0.1;
  return chargingVolts(car, state);
};

/** What the module gets and what it makes of it, volts. */
export interface ModuleSupply {
  readonly post: number;
  readonly feedDrop: number;
  readonly groundDrop: number;
  /** Between its own feed pin and its own ground pin. */
  readonly pins: number;
  readonly shown: number;
}

/** Wires drop their resistance times the current, which shrinks as the supply falls. */
export const moduleSupply = (car: Car, state: Running): ModuleSupply => {
  const post = postVolts(car, state);
  const { feed, ground, amps, protection, supplyGain, supplyOffset } = car.module;
  // The module's load is a resistance that takes its amperes at 12 V.
  const load = 12 / amps;
  const current = post / (load + feed + ground);
  const pins = isBroken(feed) || isBroken(ground) ? 0 : current * load;
  return {
    post,
    feedDrop: current * feed,
    groundDrop: current * ground,
    pins,
    shown: (pins - protection) * supplyGain + supplyOffset,
  };
};
