import { contrastProperties, readContrast } from '../contrast.ts';
import type { Kind } from '../kind.ts';

export const frontRear: Kind = {
  kind: 'front-rear',
  about: 'Mean of the front axle less mean of the rear, each sensor turned to read upwards.',
  properties: contrastProperties,
  required: ['of', 'tiers', 'in'],
  read: (raw, scope) =>
    readContrast(raw, [{ subject: 'body', weights: { LF: 0.5, RF: 0.5, LR: -0.5, RR: -0.5 } }], scope),
};
