import type { Fault } from './faults.ts';

const moduleFaults: readonly Fault[] = [
  {
    name: 'module: measures supply',
    suspect: 'control-module',
    atCorner: false,
    weight: 2,
    like: [],
    apply: (car, _corner, draw) => ({
      ...car,
      module: {
        ...car.module,
        supplyGain: 1 + (draw.chance(0.7) ? 1 : -1) * draw.logUniform(0.02, 0.2),
        supplyOffset: draw.normal(0, 0.1),
      },
    }),
  },
  {
    name: 'module: shifts all corners',
    suspect: 'control-module',
    atCorner: false,
    weight: 2,
    like: [],
    apply: (car, _corner, draw) => ({
      ...car,
      module: {
        ...car.module,
        signalGain: draw.uniform(0.7, 1.25),
        signalOffset: draw.chance(0.5) ? 0 : draw.normal(0, 0.8),
      },
    }),
  },
  {
    name: 'module: internal',
    suspect: 'control-module',
    atCorner: false,
    weight: 2,
    like: [],
    apply: (car) => ({ ...car, module: { ...car.module, codes: ['internal-fault'] } }),
  },
];

const wireFaults: readonly Fault[] = [
  {
    name: 'feed: joint resists',
    suspect: 'supply-feed',
    atCorner: false,
    weight: 4,
    like: [],
    // A joint that carries 3 A and loses from a tenth of a volt to half of the supply.
    apply: (car, _corner, draw) => ({ ...car, module: { ...car.module, feed: draw.logUniform(0.04, 3) } }),
  },
  {
    name: 'module ground: joint resists',
    suspect: 'module-ground',
    atCorner: false,
    weight: 4,
    like: [],
    apply: (car, _corner, draw) => ({ ...car, module: { ...car.module, ground: draw.logUniform(0.02, 3) } }),
  },
  {
    name: 'network: end or wire',
    suspect: 'network',
    atCorner: false,
    weight: 4,
    like: [],
    apply: (car, _corner, draw) => ({
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

const energyFaults: readonly Fault[] = [
  {
    name: 'battery: worn',
    suspect: 'battery',
    atCorner: false,
    weight: 4,
    // A flat battery cranks badly whether it is worn or was emptied; only a load test on a charged one tells.
    like: ['standing-drain'],
    apply: (car, _corner, draw) => ({
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
    atCorner: false,
    weight: 1.5,
    like: ['standing-drain'],
    apply: (car, _corner, draw) => ({
      ...car,
      battery: { ...car.battery, offset: -draw.uniform(1.6, 2.1), ohms: draw.logUniform(0.008, 0.03) },
    }),
  },
  {
    name: 'standing drain',
    suspect: 'standing-drain',
    atCorner: false,
    weight: 3,
    like: ['battery'],
    apply: (car, _corner, draw) => {
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
  {
    name: 'charging: too little',
    suspect: 'charging-system',
    atCorner: false,
    weight: 3,
    like: [],
    apply: (car, _corner, draw) => {
      const works = draw.chance(0.5);
      return {
        ...car,
        charging: { ...car.charging, works, setPoint: draw.uniform(12.5, 13.4) },
        battery: { ...car.battery, charge: draw.uniform(0.2, 0.85) },
      };
    },
  },
  {
    name: 'charging: too much',
    suspect: 'charging-system',
    atCorner: false,
    weight: 2,
    like: [],
    apply: (car, _corner, draw) => ({
      ...car,
      charging: { ...car.charging, setPoint: draw.uniform(14.9, 17.5) },
    }),
  },
];

export const supplyFaults: readonly Fault[] = [...moduleFaults, ...wireFaults, ...energyFaults];
