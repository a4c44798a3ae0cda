import type { Fault } from './faults.ts';
import { perCorner } from './vehicle.ts';

/** All that is known of these by readings is that pressure builds slowly; volts at the plug and a bypass tell. */
const slow = ['compressor', 'compressor-feed', 'dryer'];

const compressorFaults: readonly Fault[] = [
  {
    name: 'compressor: worn',
    suspect: 'compressor',
    atCorner: false,
    weight: 5,
    like: slow,
    needs: 'four-corner-air',
    apply: (car, _corner, draw) => {
      const left = draw.uniform(0, 0.75);
      return {
        ...car,
        compressor: { ...car.compressor, rate: car.compressor.rate * left, heat: draw.uniform(0.6, 1.4) },
        tank: { ...car.tank, psi: car.tank.psi * Math.max(0.3, draw.uniform(0.5, 1) * (0.5 + left)) },
      };
    },
  },
  {
    name: 'compressor feed: joint resists',
    suspect: 'compressor-feed',
    atCorner: false,
    weight: 2.5,
    like: slow,
    needs: 'four-corner-air',
    apply: (car, _corner, draw) => {
      const feed = draw.logUniform(0.05, 0.6);
      return {
        ...car,
        compressor: { ...car.compressor, feed },
        tank: { ...car.tank, psi: car.tank.psi * (feed > 0.15 ? draw.uniform(0.4, 0.9) : 1) },
      };
    },
  },
  {
    name: 'dryer: blocked',
    suspect: 'dryer',
    atCorner: false,
    weight: 2,
    like: slow,
    needs: 'four-corner-air',
    apply: (car, _corner, draw) => {
      const dryer = draw.uniform(0.1, 0.8);
      return {
        ...car,
        compressor: { ...car.compressor, dryer, heat: draw.uniform(0.5, 1.1) },
        tank: { ...car.tank, psi: car.tank.psi * Math.min(1, 0.5 + dryer * draw.uniform(0.5, 1)) },
      };
    },
  },
];

/** With the system shut in, what the tank loses says nothing of where it goes. */
const lost = ['tank', 'valve-block'];
/** Whether a spring or its line leaks, its corner goes down. */
const atCorner = ['air-line', 'air-spring'];

const leakFaults: readonly Fault[] = [
  {
    name: 'tank: leaks',
    suspect: 'tank',
    atCorner: false,
    weight: 1.5,
    like: lost,
    needs: 'four-corner-air',
    apply: (car, _corner, draw) => {
      const leak = draw.logUniform(1.5, 60);
      return { ...car, tank: { leak, psi: car.tank.psi * (leak > 15 ? draw.uniform(0.5, 1) : 1) } };
    },
  },
  {
    name: 'valve block: exhaust leaks',
    suspect: 'valve-block',
    atCorner: false,
    weight: 1.5,
    like: lost,
    needs: 'four-corner-air',
    apply: (car, _corner, draw) => {
      const leak = draw.logUniform(1.5, 60);
      return { ...car, tank: { leak, psi: car.tank.psi * (leak > 15 ? draw.uniform(0.5, 1) : 1) } };
    },
  },
  {
    name: 'valve block: springs leak',
    suspect: 'valve-block',
    atCorner: false,
    weight: 2,
    like: [],
    // A seat that does not close lets an axle down, a body that leaks all of it.
    apply: (car, _corner, draw) => {
      const axle = draw.chance(0.5) ? draw.pick(['F', 'R']) : '';
      const each = draw.logUniform(3, 40);
      return {
        ...car,
        sag: perCorner((one) =>
          axle === '' || one.endsWith(axle) || car.layout === 'rear-air-assist'
            ? each * draw.uniform(0.8, 1.2)
            : car.sag[one],
        ),
      };
    },
  },
  {
    name: 'air line: leaks',
    suspect: 'air-line',
    atCorner: true,
    weight: 4,
    like: atCorner,
    apply: (car, corner, draw) => ({ ...car, sag: { ...car.sag, [corner]: draw.logUniform(3, 200) } }),
  },
  {
    name: 'air spring: leaks',
    suspect: 'air-spring',
    atCorner: true,
    weight: 7,
    like: atCorner,
    apply: (car, corner, draw) => ({ ...car, sag: { ...car.sag, [corner]: draw.logUniform(3, 100) } }),
  },
];

export const airFaults: readonly Fault[] = [...compressorFaults, ...leakFaults];
