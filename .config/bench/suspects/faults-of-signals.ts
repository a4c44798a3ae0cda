import type { Corner } from '../../../src/core/corner.ts';
import type { Fault } from './faults.ts';
import type { Car, Sensor, Wiring } from './vehicle.ts';

const withSensor = (car: Car, corner: Corner, change: Partial<Sensor>): Car => ({
  ...car,
  sensor: { ...car.sensor, [corner]: { ...car.sensor[corner], ...change } },
});

const withWiring = (car: Car, corner: Corner, change: Partial<Wiring>): Car => ({
  ...car,
  wiring: { ...car.wiring, [corner]: { ...car.wiring[corner], ...change } },
});

const withLinkage = (car: Car, corner: Corner, mm: number | null): Car => ({
  ...car,
  linkage: { ...car.linkage, [corner]: mm },
});

const sensorFaults: readonly Fault[] = [
  {
    name: 'sensor: drifted',
    suspect: 'sensor',
    atCorner: true,
    weight: 4,
    like: [],
    // 0.15 to 2.5 V at 5 V.
    apply: (car, corner, draw) =>
      withSensor(car, corner, { drift: (draw.chance(0.5) ? 1 : -1) * draw.logUniform(0.03, 0.5) }),
  },
  {
    name: 'sensor: stuck',
    suspect: 'sensor',
    atCorner: true,
    weight: 2,
    like: [],
    apply: (car, corner, draw) => withSensor(car, corner, { stuck: draw.uniform(0.05, 0.95) }),
  },
  {
    name: 'sensor: jumping track',
    suspect: 'sensor',
    atCorner: true,
    weight: 3,
    like: [],
    apply: (car, corner, draw) => withSensor(car, corner, { jump: draw.logUniform(0.01, 0.3) }),
  },
  {
    name: 'sensor: dead output',
    suspect: 'sensor',
    atCorner: true,
    weight: 4,
    like: [],
    apply: (car, corner, draw) => withSensor(car, corner, { stuck: draw.pick([0.003, 0.997]) }),
  },
  {
    name: 'sensor: shorts reference',
    suspect: 'sensor',
    atCorner: true,
    weight: 2,
    // Its own signal falls with all others, and a reference that is low says nothing of who pulls it down.
    like: ['reference-circuit'],
    apply: (car, corner, draw) => withSensor(car, corner, { ohms: draw.logUniform(2, 60) }),
  },
];

const wireFaults: readonly Fault[] = [
  {
    name: 'wiring: signal broken',
    suspect: 'wiring',
    atCorner: true,
    weight: 4,
    like: [],
    apply: (car, corner) => withWiring(car, corner, { signal: 1e9 }),
  },
  {
    name: 'wiring: supply broken',
    suspect: 'wiring',
    atCorner: true,
    weight: 2,
    like: [],
    apply: (car, corner, draw) =>
      withWiring(car, corner, draw.chance(0.5) ? { reference: 'broken' } : { ground: 'broken' }),
  },
  {
    name: 'wiring: signal shorted',
    suspect: 'wiring',
    atCorner: true,
    weight: 2,
    like: [],
    apply: (car, corner, draw) =>
      withWiring(car, corner, { touches: draw.chance(0.6) ? 'ground' : 'reference' }),
  },
  {
    name: 'wiring: resistance',
    suspect: 'wiring',
    atCorner: true,
    weight: 2,
    like: [],
    apply: (car, corner, draw) => withWiring(car, corner, { signal: draw.logUniform(100, 1e6) }),
  },
  {
    name: 'wiring: chafed',
    suspect: 'wiring',
    atCorner: true,
    weight: 2,
    like: [],
    apply: (car, corner) => withWiring(car, corner, { intermittent: true }),
  },
];

const linkageFaults: readonly Fault[] = [
  {
    name: 'linkage: bent or slipped',
    suspect: 'linkage',
    atCorner: true,
    weight: 6,
    like: [],
    apply: (car, corner, draw) =>
      withLinkage(car, corner, (draw.chance(0.6) ? -1 : 1) * draw.logUniform(8, 70)),
  },
  {
    name: 'linkage: off',
    suspect: 'linkage',
    atCorner: true,
    weight: 3,
    like: [],
    apply: (car, corner) => withLinkage(car, corner, null),
  },
];

const sharedFaults: readonly Fault[] = [
  {
    name: 'reference: too high',
    suspect: 'reference-circuit',
    atCorner: false,
    weight: 1,
    like: [],
    apply: (car, _corner, draw) => ({
      ...car,
      reference: { ...car.reference, volts: draw.uniform(5.15, 7) },
    }),
  },
  {
    name: 'reference: regulator low',
    suspect: 'reference-circuit',
    atCorner: false,
    weight: 1.5,
    like: ['sensor'],
    apply: (car, _corner, draw) => ({
      ...car,
      reference: { ...car.reference, volts: draw.uniform(3.2, 4.85) },
    }),
  },
  {
    name: 'reference: joint resists',
    suspect: 'reference-circuit',
    atCorner: false,
    weight: 2,
    like: ['sensor'],
    apply: (car, _corner, draw) => ({
      ...car,
      reference: { ...car.reference, ohms: draw.chance(0.35) ? 1e9 : draw.logUniform(3, 2000) },
    }),
  },
  {
    name: 'sensor ground: joint resists',
    suspect: 'sensor-ground',
    atCorner: false,
    weight: 3,
    like: [],
    apply: (car, _corner, draw) => ({
      ...car,
      sensorGround: draw.chance(0.35) ? 1e9 : draw.logUniform(2, 2000),
    }),
  },
];

export const signalFaults: readonly Fault[] = [
  ...sensorFaults,
  ...wireFaults,
  ...linkageFaults,
  ...sharedFaults,
];
