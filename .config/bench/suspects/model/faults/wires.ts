import type { Corner } from '../../../../../src/core/corner.ts';
import type { Draw } from '../draw.ts';
import { brokenOhms, type Car, type Wiring } from '../vehicle.ts';
import type { Fault } from './fault.ts';

const withWiring = (car: Car, corner: Corner, change: Partial<Wiring>): Car => ({
  ...car,
  wiring: { ...car.wiring, [corner]: { ...car.wiring[corner], ...change } },
});

const wireFaults: readonly Fault[] = [
  {
    name: 'wiring: signal broken',
    suspect: 'wiring',
    at: 'corner',
    weight: 4,
    like: () => [],
    visible: 0.35,
    apply: (car, { corner }) => withWiring(car, corner, { signal: brokenOhms }),
  },
  {
    name: 'wiring: supply broken',
    suspect: 'wiring',
    at: 'corner',
    weight: 2,
    like: () => [],
    visible: 0.35,
    apply: (car, { corner }, draw) =>
      withWiring(car, corner, draw.chance(0.5) ? { reference: 'broken' } : { ground: 'broken' }),
  },
  {
    name: 'wiring: signal shorted',
    suspect: 'wiring',
    at: 'corner',
    weight: 2,
    like: () => ['sensor'],
    visible: 0.35,
    apply: (car, { corner }, draw) =>
      withWiring(car, corner, { touches: draw.chance(0.6) ? 'ground' : 'reference' }),
  },
  {
    name: 'wiring: resistance',
    suspect: 'wiring',
    at: 'corner',
    weight: 2,
    like: () => [],
    visible: 0.3,
    apply: (car, { corner }, draw) => withWiring(car, corner, { signal: draw.logUniform(100, 1e6) }),
  },
  {
    name: 'wiring: chafed',
    suspect: 'wiring',
    at: 'corner',
    weight: 2,
    like: () => [],
    visible: 0.5,
    apply: (car, { corner }) => withWiring(car, corner, { intermittent: true }),
  },
];

const referenceFaults: readonly Fault[] = [
  {
    name: 'reference: too high',
    suspect: 'reference-circuit',
    at: 'vehicle',
    weight: 1,
    like: () => [],
    visible: 0.05,
    apply: (car, _spot, draw) => ({
      ...car,
      reference: { ...car.reference, volts: draw.uniform(5.15, 7) },
    }),
  },
  {
    name: 'reference: joint resists',
    suspect: 'reference-circuit',
    at: 'vehicle',
    weight: 2,
    like: () => ['sensor', 'control-module'],
    visible: 0.2,
    apply: (car, _spot, draw) => ({
      ...car,
      reference: { ...car.reference, ohms: draw.chance(0.35) ? brokenOhms : draw.logUniform(3, 2000) },
    }),
  },
];

const jointOhms = (draw: Draw): number => (draw.chance(0.35) ? brokenOhms : draw.logUniform(2, 2000));

const groundFaults: readonly Fault[] = [
  {
    name: 'sensor ground: joint resists',
    suspect: 'sensor-ground',
    at: 'vehicle',
    weight: 2,
    like: () => [],
    visible: 0.12,
    needs: 'four-corner-air',
    apply: (car, _spot, draw) => ({ ...car, sensorGround: { ...car.sensorGround, shared: jointOhms(draw) } }),
  },
  {
    name: 'sensor ground: splice of an axle',
    suspect: 'sensor-ground',
    at: 'axle',
    weight: 2,
    like: () => [],
    visible: 0.12,
    apply: (car, { axle }, draw) => ({
      ...car,
      sensorGround: { ...car.sensorGround, [axle]: jointOhms(draw) },
    }),
  },
];

export const signalWireFaults: readonly Fault[] = [...wireFaults, ...referenceFaults, ...groundFaults];
