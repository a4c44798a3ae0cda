import type { Weight } from '../../job.ts';
import type { Tier } from '../../pack.ts';
import { spreadOfOne } from '../../readings/estimate.ts';
import { readCornerChannel } from '../height-sources.ts';
import type { Kind } from '../kind.ts';
import { measuring } from '../measuring.ts';
import { missing, newestOf } from '../outcome.ts';
import { neverRead, take } from '../take.ts';

/** Only the vehicle maker's own figures say how high a corner should stand, so there is no finding without them. */
export const tapeTarget: Kind = {
  kind: 'tape-target',
  about: "Each corner's height against the vehicle's own service data; without them it says nothing.",
  properties: { of: { type: 'string' }, weight: { enum: ['hold', 'look', 'note'] } },
  required: ['of', 'weight', 'in'],
  read: (raw, scope) => {
    const channel = readCornerChannel(raw.of, 'of', 'mm', scope)?.id ?? '';
    const tier: Tier = {
      weight: raw.weight as Weight,
      limits: { low: null, high: null },
      states: null,
      layouts: null,
      needs: {},
      says: scope.says,
      basis: scope.basis,
    };
    const tiers = [tier];
    const rule = measuring({
      unit: 'mm',
      limits: [`${tier.weight}: as the vehicle's service data say`],
      tiers,
      beforehand: neverRead,
      subjects: ({ fitted }) =>
        fitted.map((corner) => ({ name: corner, channels: [`${channel}.${corner}`] })),
      measure: (occasion, { channels: [key = ''] }, scene, check) => {
        const taken = take(newestOf(occasion), key, scene, check);
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
    return {
      ...rule,
      judge: (check, asked) => {
        const own = asked.job.vehicle.serviceData.filter((data) => data.check === check.id);
        if (own.length === 0) return [];
        return rule
          .judge(check, asked)
          .filter(({ subject, channels }) =>
            own.some(({ of }) => of === null || of === subject || channels.includes(of)),
          );
      },
    };
  },
};
