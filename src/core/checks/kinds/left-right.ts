import { contrastProperties, readContrast } from '../contrast.ts';
import type { Kind } from '../kind.ts';

export const leftRight: Kind = {
  kind: 'left-right',
  about: 'Left less right on one axle, each sensor turned to read upwards.',
  properties: contrastProperties,
  required: ['of', 'tiers', 'in'],
  read: (raw, scope) =>
    readContrast(
      raw,
      [
        { subject: 'front', weights: { LF: 1, RF: -1 } },
        { subject: 'rear', weights: { LR: 1, RR: -1 } },
      ],
      scope,
    ),
};
