import { axleOf } from '../../../../src/core/corner.ts';
import type { Draw } from './draw.ts';
import { airFaults } from './faults/air.ts';
import { bodyAndSettingFaults } from './faults/body.ts';
import type { Fault, Spot } from './faults/fault.ts';
import { sensorFaults } from './faults/sensors.ts';
import { supplyFaults } from './faults/supply.ts';
import { signalWireFaults } from './faults/wires.ts';
import { goodCar } from './good-car.ts';
import type { Car } from './vehicle.ts';

export const faults: readonly Fault[] = [
  ...sensorFaults,
  ...signalWireFaults,
  ...supplyFaults,
  ...airFaults,
  ...bodyAndSettingFaults,
];

/** A fault at its place. */
export interface Trouble {
  readonly fault: Fault;
  readonly spot: Spot;
  /** What is at fault: `sensor.LR`. */
  readonly truth: string;
  /** What would be worked on: `sensor.LR` for a wrong sensor, too. */
  readonly component: string;
}

/** One vehicle of the fleet, and what is wrong with it: nothing, one thing or two. */
export interface Member {
  readonly number: number;
  readonly car: Car;
  readonly troubles: readonly Trouble[];
}

/** How often nothing is wrong, and how often two things are where something is. Judgement. */
const healthyShare = 0.125;
const pairShare = 0.12;

const placed = (name: string, { at }: Fault, { corner, axle }: Spot): string =>
  at === 'vehicle' ? name : `${name}.${at === 'corner' ? corner : axle}`;

const isAble = ({ needs }: Fault, { layout }: Car): boolean => needs === undefined || needs === layout;

const troubleOf = (car: Car, able: readonly Fault[], draw: Draw): Trouble => {
  const fault = draw.weighted(able);
  const corner = draw.pick(car.fitted);
  const spot = { corner, axle: axleOf(corner) };
  return {
    fault,
    spot,
    truth: placed(fault.suspect, fault, spot),
    component: placed(fault.component ?? fault.suspect, fault, spot),
  };
};

/** Two that may be met together: of other parts, and neither an instrument. */
const isSecond = (second: Fault, first: Fault): boolean =>
  (second.component ?? second.suspect) !== (first.component ?? first.suspect) &&
  !['meter', 'gauge', 'module-reading'].includes(second.suspect);

/** A vehicle with faults of its own; the same for the same number and draw. */
export const drawMember = (number: number, draw: Draw): Member => {
  const car = goodCar(draw);
  if (draw.chance(healthyShare)) return { number, car, troubles: [] };
  const able = faults.filter((fault) => isAble(fault, car));
  const first = troubleOf(car, able, draw);
  const broken = first.fault.apply(car, first.spot, draw);
  const another = able.filter((one) => isSecond(one, first.fault));
  if (!isSecond(first.fault, { ...first.fault, suspect: '', component: '' }) || !draw.chance(pairShare))
    return { number, car: broken, troubles: [first] };
  const second = troubleOf(car, another, draw);
  return { number, car: second.fault.apply(broken, second.spot, draw), troubles: [first, second] };
};
