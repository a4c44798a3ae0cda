import { axles, type Corner, corners, sides } from '../../../src/core/corner.ts';
import type { Fault } from './faults.ts';
import { perCorner } from './vehicle.ts';

/** Corners that lean together: a side, an axle, or all of them. */
const together: readonly (readonly Corner[])[] = [sides.left, sides.right, axles.front, axles.rear, corners];

export const bodyFaults: readonly Fault[] = [
  {
    name: 'damper: coil',
    suspect: 'damper',
    atCorner: true,
    weight: 3,
    like: [],
    needs: 'four-corner-air',
    apply: (car, corner, draw) => ({
      ...car,
      damper: { ...car.damper, [corner]: draw.chance(0.5) ? 1e6 : draw.uniform(0.2, 4) },
    }),
  },
  {
    name: 'body: leans',
    suspect: 'uneven-body',
    atCorner: false,
    weight: 3,
    // Targets that were learnt wrong stand the body as wrong, and signals and tape agree on either.
    like: ['calibration'],
    apply: (car, _corner, draw) => {
      const low = draw.pick(together);
      const mm = (draw.chance(0.7) ? -1 : 1) * draw.uniform(15, 80);
      return {
        ...car,
        levelling: 'disabled',
        lean: perCorner((corner) => (low.includes(corner) ? mm : 0) + draw.normal(0, 3)),
      };
    },
  },
  {
    name: 'learn: never ran',
    suspect: 'calibration',
    atCorner: false,
    weight: 4,
    like: [],
    apply: (car) => ({
      ...car,
      levelling: 'disabled',
      module: { ...car.module, codes: ['not-calibrated'] },
    }),
  },
  {
    name: 'learn: wrong targets',
    suspect: 'calibration',
    atCorner: false,
    weight: 1.5,
    like: ['uneven-body'],
    apply: (car, _corner, draw) => {
      const off = perCorner(() => draw.normal(0, 25));
      return { ...car, levelling: 'active', target: off };
    },
  },
  {
    name: 'configuration: not set up',
    suspect: 'configuration',
    atCorner: false,
    weight: 1.5,
    like: [],
    apply: (car, _corner, draw) => ({
      ...car,
      levelling: 'disabled',
      module: {
        ...car.module,
        codes: [
          draw.pick(['not-programmed', 'not-configured']),
          ...(draw.chance(0.5) ? ['not-calibrated'] : []),
        ],
      },
    }),
  },
];
