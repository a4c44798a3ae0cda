import type { Draw } from '../draw.ts';
import { brokenOhms, type Car, type Module } from '../vehicle.ts';
import type { Fault } from './fault.ts';

const withModule = (car: Car, change: Partial<Module>): Car => ({
  ...car,
  module: { ...car.module, ...change },
});

const moduleFaults: readonly Fault[] = [
  {
    name: 'module: measures supply',
    suspect: 'control-module',
    at: 'vehicle',
    weight: 2,
    like: () => ['module-reading'],
    visible: 0.02,
    apply: (car, _spot, draw) =>
      withModule(car, {
        supplyGain: 1 + (draw.chance(0.7) ? 1 : -1) * draw.logUniform(0.05, 0.25),
        supplyOffset: draw.normal(0, 0.1),
      }),
  },
  {
    name: 'module reading: off',
    suspect: 'module-reading',
    component: 'control-module',
    at: 'vehicle',
    weight: 0.8,
    like: () => ['control-module'],
    visible: 0,
    apply: (car, _spot, draw) =>
      withModule(car, { supplyOffset: (draw.chance(0.6) ? 1 : -1) * draw.uniform(0.4, 0.9) }),
  },
  {
    name: 'module: shifts all corners',
    suspect: 'control-module',
    at: 'vehicle',
    weight: 2,
    like: () => [],
    visible: 0.03,
    apply: (car, _spot, draw) =>
      withModule(car, {
        signalGain: draw.uniform(0.7, 1.25),
        signalOffset: draw.chance(0.5) ? 0 : draw.normal(0, 0.8),
      }),
  },
  {
    name: 'module: its regulator is low',
    suspect: 'control-module',
    at: 'vehicle',
    weight: 1.5,
    // Its pin tells it from the wire, and a plug off from a sensor; readings at the plugs do not.
    like: () => ['reference-circuit', 'sensor'],
    visible: 0.02,
    apply: (car, _spot, draw) => ({
      ...car,
      reference: { ...car.reference, volts: draw.uniform(3.2, 4.85) },
    }),
  },
  {
    name: 'module: internal',
    suspect: 'control-module',
    at: 'vehicle',
    weight: 2,
    like: () => [],
    visible: 0.05,
    apply: (car) => withModule(car, { codes: ['internal-fault'] }),
  },
];

/** A joint that carries 3 A and loses from a tenth of a volt to half of the supply, or a fuse that is through. */
const feedOhms = (draw: Draw): number => (draw.chance(0.2) ? brokenOhms : draw.logUniform(0.04, 3));

const wireFaults: readonly Fault[] = [
  {
    name: 'feed: joint or fuse',
    suspect: 'supply-feed',
    at: 'vehicle',
    weight: 4,
    like: () => [],
    visible: 0.35,
    apply: (car, _spot, draw) => withModule(car, { feed: feedOhms(draw) }),
  },
  {
    name: 'module ground: joint resists',
    suspect: 'module-ground',
    at: 'vehicle',
    weight: 3.5,
    like: () => [],
    visible: 0.35,
    apply: (car, _spot, draw) => withModule(car, { ground: draw.logUniform(0.02, 3) }),
  },
  {
    name: 'network: end or wire',
    suspect: 'network',
    at: 'vehicle',
    weight: 3,
    like: () => [],
    visible: 0.2,
    apply: (car, _spot, draw) => ({
      ...car,
      network: draw.weighted([
        { weight: 4, ohms: draw.uniform(118, 122) },
        { weight: 1, ohms: draw.uniform(39, 41) },
        { weight: 2, ohms: draw.logUniform(0.2, 15) },
        { weight: 3, ohms: 60 + draw.logUniform(3, 3000) },
      ]).ohms,
    }),
  },
];

const batteryFaults: readonly Fault[] = [
  {
    name: 'battery: worn',
    suspect: 'battery',
    at: 'vehicle',
    weight: 4,
    like: () => [],
    visible: 0.1,
    apply: (car, _spot, draw) => ({
      ...car,
      battery: {
        ...car.battery,
        ohms: draw.logUniform(0.011, 0.04),
        charge: draw.chance(0.7) ? draw.uniform(0.2, 0.75) : car.battery.charge,
      },
    }),
  },
  {
    name: 'battery: dead cell',
    suspect: 'battery',
    at: 'vehicle',
    weight: 1.5,
    like: () => [],
    visible: 0.1,
    apply: (car, _spot, draw) => ({
      ...car,
      battery: { ...car.battery, offset: -draw.uniform(1.6, 2.1), ohms: draw.logUniform(0.008, 0.03) },
    }),
  },
  {
    name: 'standing drain',
    suspect: 'standing-drain',
    component: 'standing-load',
    at: 'vehicle',
    weight: 3,
    like: () => [],
    visible: 0.12,
    apply: (car, _spot, draw) => {
      const amps = draw.logUniform(0.1, 4);
      // Some days of standing empty 70 Ah by what flows, and no further than the battery gives.
      const hours = draw.uniform(10, 90);
      return {
        ...car,
        standingAmps: amps,
        battery: { ...car.battery, charge: Math.max(0.02, car.battery.charge - (amps * hours) / 70) },
      };
    },
  },
];

const chargingFaults: readonly Fault[] = [
  {
    name: 'charging: too little',
    suspect: 'charging-system',
    at: 'vehicle',
    weight: 3,
    like: () => [],
    visible: 0.08,
    apply: (car, _spot, draw) => ({
      ...car,
      charging: {
        ...car.charging,
        works: draw.chance(0.5),
        setPoint: draw.uniform(12.5, 13.4),
        sags: draw.uniform(0.2, 1),
        ripple: draw.chance(0.5) ? draw.logUniform(0.12, 1) : car.charging.ripple,
      },
      battery: { ...car.battery, charge: draw.uniform(0.2, 0.85) },
    }),
  },
  {
    name: 'charging: too much',
    suspect: 'charging-system',
    at: 'vehicle',
    weight: 2,
    like: () => [],
    visible: 0.08,
    apply: (car, _spot, draw) => ({
      ...car,
      charging: { ...car.charging, setPoint: draw.uniform(15.2, 17.5) },
    }),
  },
  {
    name: 'charging: diode',
    suspect: 'charging-system',
    at: 'vehicle',
    weight: 0.8,
    like: () => [],
    visible: 0.02,
    apply: (car, _spot, draw) => ({
      ...car,
      charging: { ...car.charging, ripple: draw.logUniform(0.15, 1.5), sags: draw.uniform(0.3, 1.2) },
    }),
  },
];

/** An instrument that misleads on a vehicle with nothing wrong. */
const meterFaults: readonly Fault[] = [
  {
    name: 'meter: off',
    suspect: 'meter',
    at: 'vehicle',
    weight: 1.2,
    like: () => [],
    visible: 0,
    apply: (car, _spot, draw) => ({
      ...car,
      instruments: { ...car.instruments, meter: (draw.chance(0.65) ? -1 : 1) * draw.logUniform(0.015, 0.05) },
    }),
  },
];

export const supplyFaults: readonly Fault[] = [
  ...moduleFaults,
  ...wireFaults,
  ...batteryFaults,
  ...chargingFaults,
  ...meterFaults,
];
