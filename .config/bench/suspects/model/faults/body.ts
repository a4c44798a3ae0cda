import { axles, type Corner, sides } from '../../../../../src/core/corner.ts';
import { perCorner } from '../per-corner.ts';
import type { Car, Module } from '../vehicle.ts';
import type { Fault } from './fault.ts';

/** Corners that lean together: a side or an axle. */
const together: readonly (readonly Corner[])[] = [sides.left, sides.right, axles.front, axles.rear];

const withCodes = (car: Car, codes: Module['codes']): Car => ({ ...car, module: { ...car.module, codes } });

const bodyFaults: readonly Fault[] = [
  {
    name: 'damper: coil',
    suspect: 'damper',
    at: 'corner',
    weight: 2,
    like: () => [],
    visible: 0.1,
    needs: 'four-corner-air',
    apply: (car, { corner }, draw) => ({
      ...car,
      damper: {
        ...car.damper,
        [corner]: { ohms: draw.chance(0.5) ? 1e9 : draw.uniform(0.2, 4), worn: false },
      },
    }),
  },
  {
    name: 'damper: worn',
    suspect: 'damper',
    at: 'corner',
    weight: 0.8,
    like: () => [],
    visible: 0.5,
    apply: (car, { corner }) => ({
      ...car,
      damper: { ...car.damper, [corner]: { ...car.damper[corner], worn: true } },
    }),
  },
  {
    name: 'body: leans',
    suspect: 'uneven-body',
    component: 'body',
    at: 'vehicle',
    weight: 3,
    like: () => [],
    visible: 0.5,
    apply: (car, _spot, draw) => {
      const low = draw.pick(together);
      const mm = -draw.uniform(18, 70);
      return {
        ...car,
        levelling: { ...car.levelling, is: 'disabled', worked: false },
        lean: perCorner((corner) => (low.includes(corner) ? mm : 0) + draw.normal(0, 2.5)),
      };
    },
  },
  {
    name: 'tyres: low or of another size',
    suspect: 'tyres',
    at: 'vehicle',
    weight: 1.5,
    like: () => [],
    visible: 0.7,
    apply: (car, { corner }, draw) => {
      const mm = -draw.uniform(12, 30);
      const whole = draw.chance(0.3);
      return {
        ...car,
        tyre: perCorner(
          (one) => car.tyre[one] + (one === corner || (whole && one[0] === corner[0]) ? mm : 0),
        ),
      };
    },
  },
  {
    name: 'levelling: mode left on',
    suspect: 'levelling-mode',
    at: 'vehicle',
    weight: 2,
    like: () => [],
    visible: 0.9,
    apply: (car, _spot, draw) => {
      const all = draw.chance(0.5) ? draw.uniform(-60, -15) : draw.uniform(-5, 40);
      return {
        ...car,
        levelling: { ...car.levelling, mode: draw.pick(['transport', 'jacking', 'off'] as const) },
        lean: perCorner((corner) => car.lean[corner] + (car.fitted.includes(corner) ? all : 0)),
      };
    },
  },
];

const learnFaults: readonly Fault[] = [
  {
    name: 'learn: never ran',
    suspect: 'calibration',
    component: 'ride-height',
    at: 'vehicle',
    weight: 4,
    like: () => [],
    visible: 0,
    apply: (car) => withCodes(car, ['not-calibrated']),
  },
  {
    name: 'learn: wrong targets',
    suspect: 'calibration',
    component: 'ride-height',
    at: 'vehicle',
    weight: 1.5,
    // Targets that were learnt wrong stand the body as wrong, and signals and tape agree on either.
    like: () => ['uneven-body'],
    visible: 0,
    // It was learnt with the body at another stand, which is a plane as every stand is.
    apply: (car, _spot, draw) => {
      const [heave, pitch, roll] = [draw.normal(0, 22), draw.normal(0, 12), draw.normal(0, 12)];
      const target = perCorner(
        (corner) => heave + (corner.endsWith('F') ? pitch : -pitch) + (corner.startsWith('L') ? roll : -roll),
      );
      return { ...car, levelling: { ...car.levelling, is: 'active', target } };
    },
  },
  {
    name: 'configuration: not set up',
    suspect: 'configuration',
    at: 'vehicle',
    weight: 1.5,
    like: () => [],
    visible: 0.5,
    apply: (car, _spot, draw) =>
      withCodes(car, [
        draw.pick(['not-programmed', 'not-configured']),
        ...(draw.chance(0.5) ? ['not-calibrated'] : []),
      ]),
  },
];

export const bodyAndSettingFaults: readonly Fault[] = [...bodyFaults, ...learnFaults];
