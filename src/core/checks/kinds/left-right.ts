import { contrasting } from '../contrast.ts';

export const leftRight = contrasting(
  'left-right',
  'Left less right on one axle, each sensor turned to read upwards.',
  [
    { subject: 'front', weights: { LF: 1, RF: -1 } },
    { subject: 'rear', weights: { LR: 1, RR: -1 } },
  ],
);
