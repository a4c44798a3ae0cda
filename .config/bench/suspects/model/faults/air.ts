import { axleOf } from '../../../../../src/core/corner.ts';
import { pairOf, perCorner } from '../per-corner.ts';
import { brokenOhms, type Car, type Compressor } from '../vehicle.ts';
import { driven, type Fault } from './fault.ts';

const withCompressor = (car: Car, change: Partial<Compressor>, tank = 1): Car => ({
  ...car,
  compressor: { ...car.compressor, ...change },
  tank: { ...car.tank, psi: car.tank.psi * tank },
});

/** Current against the plate tells a block from a worn one; without a plate all that is known is that it fills slowly. */
const slow = ({ known, layout }: Car): readonly string[] =>
  known.plate && layout === 'four-corner-air'
    ? ['compressor', 'exhaust-valve']
    : ['compressor', 'exhaust-valve', 'dryer', 'compressor-feed'];

const compressorFaults: readonly Fault[] = [
  {
    name: 'compressor: worn',
    suspect: 'compressor',
    at: 'vehicle',
    weight: 4,
    like: slow,
    visible: 0.05,
    apply: (car, _spot, draw) => {
      const health = draw.uniform(0.05, 0.6);
      const heat = draw.uniform(0.6, 1.4);
      return withCompressor(car, { health, heat }, Math.max(0.25, draw.uniform(0.4, 1) * (0.5 + health)));
    },
  },
  {
    name: 'compressor: does not turn',
    suspect: 'compressor',
    at: 'vehicle',
    weight: 1,
    like: () => ['compressor-feed'],
    visible: 0.1,
    apply: (car, _spot, draw) =>
      withCompressor(
        car,
        { dead: draw.chance(0.7) ? 'motor' : 'cut-out', heat: draw.uniform(0.5, 1.5) },
        draw.uniform(0.2, 0.6),
      ),
  },
  {
    name: 'compressor feed: relay, fuse or joint',
    suspect: 'compressor-feed',
    at: 'vehicle',
    weight: 3,
    // Nobody times a system without a tank.
    like: ({ layout }) => (layout === 'four-corner-air' ? [] : ['compressor', 'exhaust-valve', 'dryer']),
    visible: 0.35,
    apply: (car, _spot, draw) => {
      const feed = draw.chance(0.4) ? brokenOhms : draw.logUniform(0.06, 0.6);
      return withCompressor(car, { feed }, feed > 0.15 ? draw.uniform(0.25, 0.9) : 1);
    },
  },
  {
    name: 'exhaust valve: does not close',
    suspect: 'exhaust-valve',
    at: 'vehicle',
    weight: 2.5,
    like: slow,
    visible: 0.08,
    apply: (car, _spot, draw) =>
      withCompressor(
        car,
        { exhaust: draw.uniform(0.3, 1), heat: draw.uniform(0.4, 1.1) },
        draw.uniform(0.3, 0.9),
      ),
  },
  {
    name: 'exhaust valve: does not open',
    suspect: 'exhaust-valve',
    at: 'vehicle',
    weight: 1,
    like: () => [],
    visible: 0.05,
    apply: (car, _spot, draw) => {
      const up = draw.uniform(15, 60);
      return {
        ...withCompressor(car, { shut: true }),
        lean: perCorner((corner) => car.lean[corner] + (car.fitted.includes(corner) ? up : 0)),
      };
    },
  },
  {
    name: 'dryer: blocked',
    suspect: 'dryer',
    at: 'vehicle',
    weight: 2,
    // One that is half blocked lets enough through to look like a worn compressor.
    like: (car) => (car.compressor.dryer < 0.11 && slow(car).length < 3 ? [] : slow(car)),
    visible: 0.12,
    apply: (car, _spot, draw) => {
      const dryer = draw.uniform(0.04, 0.2);
      return withCompressor(
        car,
        { dryer, heat: draw.uniform(0.5, 1.3) },
        Math.min(1, 0.4 + dryer * draw.uniform(0.8, 2)),
      );
    },
  },
];

const pressureFaults: readonly Fault[] = [
  {
    name: 'pressure sensor: off',
    suspect: 'pressure-sensor',
    at: 'vehicle',
    weight: 2,
    like: () => ['gauge'],
    visible: 0.05,
    apply: (car, _spot, draw) => {
      const low = draw.chance(0.65);
      return {
        ...car,
        pressureSensor: low
          ? { gain: draw.uniform(0.25, 0.92), offset: draw.normal(0, 3) }
          : { gain: draw.uniform(1.08, 1.5), offset: draw.normal(0, 3) },
      };
    },
  },
  {
    name: 'gauge: off',
    suspect: 'gauge',
    at: 'vehicle',
    weight: 0.3,
    like: () => ['pressure-sensor'],
    visible: 0,
    apply: (car, _spot, draw) => ({
      ...car,
      instruments: { ...car.instruments, gauge: (draw.chance(0.5) ? 1 : -1) * draw.uniform(8, 25) },
    }),
  },
  {
    name: 'tank: leaks',
    suspect: 'tank',
    at: 'vehicle',
    weight: 1.5,
    like: () => ['valve-block'],
    visible: 0.2,
    needs: 'four-corner-air',
    apply: (car, _spot, draw) => {
      const leak = draw.logUniform(3, 60);
      return {
        ...car,
        tank: { ...car.tank, leak, psi: car.tank.psi * (leak > 15 ? draw.uniform(0.5, 1) : 1) },
      };
    },
  },
];

const valveFaults: readonly Fault[] = [
  {
    name: 'valve block: leaks outside',
    suspect: 'valve-block',
    at: 'vehicle',
    weight: 1,
    like: () => ['tank'],
    visible: 0.1,
    needs: 'four-corner-air',
    apply: (car, _spot, draw) => {
      const leak = draw.logUniform(3, 40);
      return {
        ...car,
        tank: { ...car.tank, leak, psi: car.tank.psi * (leak > 15 ? draw.uniform(0.5, 1) : 1) },
      };
    },
  },
  {
    name: 'valve block: lets an axle or all down',
    suspect: 'valve-block',
    at: 'vehicle',
    weight: 1.5,
    like: () => [],
    visible: 0.03,
    // A seat that does not close lets an axle down, a body that leaks all of it.
    apply: (car, { axle }, draw) => {
      const all = draw.chance(0.4) || car.layout === 'rear-air-assist';
      const each = draw.logUniform(2, 25);
      return driven({
        ...car,
        sag: perCorner((one) =>
          (all || axleOf(one) === axle) && car.fitted.includes(one)
            ? each * draw.uniform(0.8, 1.2)
            : car.sag[one],
        ),
      });
    },
  },
  {
    name: 'valve block: tank to corner',
    suspect: 'valve-block',
    at: 'vehicle',
    weight: 1,
    like: () => [],
    visible: 0.02,
    needs: 'four-corner-air',
    apply: (car, { corner }, draw) =>
      driven({ ...car, passes: { ...car.passes, [corner]: draw.logUniform(2.5, 10) } }),
  },
  {
    name: 'valve block: corner to corner',
    suspect: 'valve-block',
    at: 'vehicle',
    weight: 0.6,
    like: () => [],
    visible: 0.02,
    needs: 'four-corner-air',
    apply: (car, { corner }, draw) => {
      const rate = draw.logUniform(2.5, 10);
      return driven({ ...car, passes: { ...car.passes, [corner]: -rate, [pairOf[corner]]: rate } });
    },
  },
];

/** Whether a spring or its line leaks, its corner goes down. */
const leakFaults: readonly Fault[] = [
  {
    name: 'air line: leaks',
    suspect: 'air-line',
    at: 'corner',
    weight: 4,
    like: () => ['air-spring'],
    visible: 0.2,
    apply: (car, { corner }, draw) =>
      driven({ ...car, sag: { ...car.sag, [corner]: draw.logUniform(2.5, 60) } }),
  },
  {
    name: 'air spring: leaks',
    suspect: 'air-spring',
    at: 'corner',
    weight: 7,
    like: () => ['air-line'],
    visible: 0.3,
    apply: (car, { corner }, draw) =>
      driven({ ...car, sag: { ...car.sag, [corner]: draw.logUniform(2.5, 40) } }),
  },
];

export const airFaults: readonly Fault[] = [
  ...compressorFaults,
  ...pressureFaults,
  ...valveFaults,
  ...leakFaults,
];
