import type { Weight } from '../../job.ts';
import { spreadOfOne } from '../../readings/estimate.ts';
import { readCornerChannel } from '../height-sources.ts';
import type { Kind } from '../kind.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf } from '../outcome.ts';
import { neverRead, take } from '../take.ts';
import { plainTier } from '../word-outcome.ts';

interface TapeTarget extends Measured {
  readonly channel: string;
}

const judging = measuring<TapeTarget>({
  kind: 'tape-target',
  about: "Each corner's height against the vehicle's own service data; without them it says nothing.",
  properties: { of: { type: 'string' }, weight: { enum: ['hold', 'look', 'note'] } },
  required: ['of', 'weight', 'in'],
  read: (raw, scope) => ({
    unit: 'mm',
    tiers: [plainTier(raw.weight as Weight, scope)],
    channel: readCornerChannel(raw.of, 'of', 'mm', scope)?.id ?? '',
  }),
  limits: ({ tiers }) => [`${tiers[0]?.weight}: as the vehicle's service data say`],
  beforehand: neverRead,
  subjects: ({ channel }, { fitted }) =>
    fitted.map((corner) => ({ name: corner, channels: [`${channel}.${corner}`] })),
  measure: (occasion, { channels: [key = ''] }, context, check, { tiers }) => {
    const taken = take(newestOf(occasion), key, context, check);
    if (!taken.ok) return missing(taken.missing);
    const { estimate, count } = taken;
    return {
      taken: true,
      value: estimate.value,
      unit: estimate.unit,
      spread: spreadOfOne(estimate),
      scatterFrom: estimate.scatterFrom,
      count,
      tiers,
    };
  },
});

/** Only the vehicle maker's own figures say how high a corner should stand, so there is no finding without them. */
export const tapeTarget: Kind<TapeTarget> = {
  ...judging,
  judge: (plan, parameters, context) => {
    const own = context.job.vehicle.serviceData.filter((data) => data.check === plan.check.id);
    if (own.length === 0) return [];
    return judging
      .judge(plan, parameters, context)
      .filter(({ subject, channels }) =>
        own.some(({ of }) => of === null || of === subject || channels.includes(of)),
      );
  },
};
