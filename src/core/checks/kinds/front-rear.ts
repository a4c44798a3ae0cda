import { contrasting } from '../contrast.ts';

export const frontRear = contrasting(
  'front-rear',
  'Mean of the front axle less mean of the rear, each sensor turned to read upwards.',
  [{ subject: 'body', weights: { LF: 0.5, RF: 0.5, LR: -0.5, RR: -0.5 } }],
);
