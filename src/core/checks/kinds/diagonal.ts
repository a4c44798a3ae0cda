import { contrasting } from '../contrast.ts';

export const diagonal = contrasting(
  'diagonal',
  '(LF + RR) less (RF + LR), each sensor turned to read upwards: says that one corner does not fit, never which.',
  [{ subject: 'body', weights: { LF: 1, RF: -1, LR: -1, RR: 1 } }],
);
