import type { Corner } from '../../../../../src/core/corner.ts';
import type { Car, Sensor } from '../vehicle.ts';
import { driven, type Fault } from './fault.ts';

const withSensor = (car: Car, corner: Corner, change: Partial<Sensor>): Car => ({
  ...car,
  sensor: { ...car.sensor, [corner]: { ...car.sensor[corner], ...change } },
});

const withLinkage = (car: Car, corner: Corner, mm: number | null): Car => ({
  ...car,
  linkage: { ...car.linkage, [corner]: mm },
});

const ownFaults: readonly Fault[] = [
  {
    name: 'sensor: drifted',
    suspect: 'sensor',
    at: 'corner',
    weight: 4,
    like: () => ['linkage'],
    visible: 0.05,
    // 0.15 to 2.5 V at 5 V.
    apply: (car, { corner }, draw) =>
      withSensor(car, corner, { drift: (draw.chance(0.5) ? 1 : -1) * draw.logUniform(0.03, 0.5) }),
  },
  {
    name: 'sensor: stuck',
    suspect: 'sensor',
    at: 'corner',
    weight: 2,
    like: () => [],
    visible: 0.15,
    apply: (car, { corner }, draw) => withSensor(car, corner, { stuck: draw.uniform(0.05, 0.95) }),
  },
  {
    name: 'sensor: jumping track',
    suspect: 'sensor',
    at: 'corner',
    weight: 3,
    like: () => [],
    visible: 0.05,
    apply: (car, { corner }, draw) => withSensor(car, corner, { jump: draw.logUniform(0.01, 0.3) }),
  },
  {
    name: 'sensor: dead output',
    suspect: 'sensor',
    at: 'corner',
    weight: 4,
    like: () => [],
    visible: 0.2,
    apply: (car, { corner }, draw) => withSensor(car, corner, { stuck: draw.pick([0.003, 0.997]) }),
  },
  {
    name: 'sensor: shorts reference',
    suspect: 'sensor',
    at: 'corner',
    weight: 2,
    // Its own signal falls with all others, and a reference that is low says nothing of who pulls it down.
    like: () => ['reference-circuit', 'control-module', 'sensor'],
    visible: 0.3,
    apply: (car, { corner }, draw) => withSensor(car, corner, { ohms: draw.logUniform(2, 60) }),
  },
  {
    name: 'sensor: other hand',
    suspect: 'wrong-sensor',
    component: 'sensor',
    at: 'corner',
    weight: 0.8,
    like: () => [],
    visible: 0.6,
    // Somebody fitted it and drove off: levelling has obeyed it since.
    apply: (car, { corner }, draw) => {
      const { gain, centre } = car.sensor[corner];
      return driven(
        withSensor(car, corner, { otherHand: true, gain: -gain, drift: 0.5 - centre + draw.normal(0, 0.02) }),
      );
    },
  },
];

const linkageFaults: readonly Fault[] = [
  {
    name: 'linkage: bent or slipped',
    suspect: 'linkage',
    at: 'corner',
    weight: 6,
    // Its sensor stands elsewhere, whether the rod is bent or the track has drifted.
    like: () => ['sensor'],
    visible: 0.6,
    apply: (car, { corner }, draw) =>
      withLinkage(car, corner, (draw.chance(0.6) ? -1 : 1) * draw.logUniform(8, 70)),
  },
  {
    name: 'linkage: off',
    suspect: 'linkage',
    at: 'corner',
    weight: 3,
    like: () => ['sensor'],
    visible: 0.95,
    apply: (car, { corner }) => withLinkage(car, corner, null),
  },
];

const crossed: readonly Fault[] = [
  {
    name: 'plugs: crossed',
    suspect: 'crossed-plugs',
    component: 'sensor-plugs',
    at: 'axle',
    weight: 0.7,
    like: () => [],
    visible: 0.4,
    apply: (car, { axle }) => driven({ ...car, crossed: { ...car.crossed, [axle]: true } }),
  },
];

export const sensorFaults: readonly Fault[] = [...ownFaults, ...linkageFaults, ...crossed];
