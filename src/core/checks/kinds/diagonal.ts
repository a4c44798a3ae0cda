import { contrastProperties, readContrast } from '../contrast.ts';
import type { Kind } from '../kind.ts';

export const diagonal: Kind = {
  kind: 'diagonal',
  about:
    '(LF + RR) less (RF + LR), each sensor turned to read upwards: says that one corner does not fit, never which.',
  properties: contrastProperties,
  required: ['of', 'tiers', 'in'],
  read: (raw, scope) =>
    readContrast(raw, [{ subject: 'body', weights: { LF: 1, RF: -1, LR: -1, RR: 1 } }], scope),
};
