import { type Axle, axles } from '../../corner.ts';
import { combine } from '../../readings/estimate.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf } from '../outcome.ts';
import { readChannel } from '../parameters.ts';
import { neverRead, takeAll } from '../take.ts';
import { readTiers, tiersSchema } from '../tiers.ts';

interface PairShare extends Measured {
  readonly of: string;
}

export const pairShare = measuring<PairShare>({
  kind: 'pair-share',
  about: 'Left less right on one axle, as a share of their mean.',
  properties: { of: { type: 'string' }, tiers: tiersSchema },
  required: ['of', 'tiers', 'in'],
  read: (raw, scope) => ({
    of: readChannel(raw.of, ['of'], scope)?.id ?? '',
    unit: '%',
    tiers: readTiers(raw.tiers, '%', scope),
  }),
  beforehand: neverRead,
  subjects: ({ of }) =>
    (Object.keys(axles) as Axle[]).map((axle) => ({
      name: axle,
      channels: axles[axle].map((corner) => `${of}.${corner}`),
    })),
  measure: (occasion, subject, context, check, { tiers }) => {
    const all = takeAll(newestOf(occasion), subject.channels, context, check);
    if (!all.ok) return missing(all.missing);
    const [left, right] = all.taken;
    if (!left || !right) throw new Error('a pair has two sides');
    const x = left.estimate.value;
    const y = right.estimate.value;
    const sum = x + y;
    if (sum <= 6 * (left.estimate.offset + right.estimate.offset)) {
      return missing({ why: 'reference-near-zero', channel: subject.channels[0] ?? '' });
    }
    return {
      taken: true,
      value: (200 * (x - y)) / sum,
      unit: '%',
      // d/dx of 200·(x − y)/(x + y) is 400·y/(x + y)², and by y its mirror.
      spread: combine([
        { estimate: left.estimate, sensitivity: (400 * y) / sum ** 2 },
        { estimate: right.estimate, sensitivity: (-400 * x) / sum ** 2 },
      ]),
      scatterFrom: left.estimate.scatterFrom,
      count: Math.min(left.count, right.count),
      tiers,
    };
  },
});
