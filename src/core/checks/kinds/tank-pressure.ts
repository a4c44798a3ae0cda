import type { Layout, Weight } from '../../job.ts';
import { spreadOfOne } from '../../readings/estimate.ts';
import { formatNumber } from '../../readings/format-number.ts';
import { convert } from '../../readings/units.ts';
import { quantitySchema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf } from '../outcome.ts';
import { pressureRate } from '../over-time/rate-units.ts';
import { readChannel, readQuantity } from '../parameters.ts';
import { neverRead, take } from '../take.ts';
import { readTiers, tiersSchema } from '../tiers.ts';
import { plainTier } from '../word-outcome.ts';

interface TankPressure extends Measured {
  readonly of: string;
  readonly floor: number;
  /** Parts of the rated pressure. */
  readonly least: number;
  readonly most: number;
}

/** The layouts that have a tank. */
const tanked: readonly Layout[] = ['four-corner-air'];

/** A tank against what its vehicle is rated for; without a rating only against a floor. */
export const tankPressure = measuring<TankPressure>({
  kind: 'tank-pressure',
  about:
    "Tank pressure against shares of the vehicle's rated pressure; where it is not stated, against a floor alone.",
  properties: {
    of: { type: 'string' },
    floor: quantitySchema,
    'at-least-of-rated': quantitySchema,
    'at-most-of-rated': quantitySchema,
    weight: { enum: ['hold', 'look', 'note'] },
    /** Limits of a line, for layouts without a tank. */
    line: tiersSchema,
  },
  required: ['of', 'floor', 'at-least-of-rated', 'at-most-of-rated', 'weight', 'in'],
  read: (raw, scope) => {
    const channel = readChannel(raw.of, ['of'], scope);
    const unit = pressureRate(channel, 'h', scope).of;
    const floor = readQuantity(raw.floor, unit, ['floor'], scope);
    const share = (key: string): number => readQuantity(raw[key], '%', [key], scope) / 100;
    return {
      unit,
      tiers: [
        { ...plainTier(raw.weight as Weight, scope), layouts: tanked, limits: { low: floor, high: null } },
        ...(raw.line === undefined ? [] : readTiers(raw.line, unit, scope)),
      ],
      of: channel?.id ?? '',
      floor,
      least: share('at-least-of-rated'),
      most: share('at-most-of-rated'),
    };
  },
  limits: ({ tiers, unit, floor, least, most }) => [
    `${tiers[0]?.weight}: ${formatNumber(100 * least)} to ${formatNumber(100 * most)} % of the rated pressure; where none is stated at least ${formatNumber(floor)} ${unit}`,
  ],
  beforehand: neverRead,
  subjects: ({ of }) => [{ name: of, channels: [of] }],
  measure: (occasion, _subject, context, check, { of, tiers, least, most }) => {
    const taken = take(newestOf(occasion), of, context, check);
    if (!taken.ok) return missing(taken.missing);
    const { estimate, count } = taken;
    const { ratedPressure } = context.job.vehicle.air;
    const rated = ratedPressure === null ? null : convert(ratedPressure, 'psi', estimate.unit);
    return {
      taken: true,
      value: estimate.value,
      unit: estimate.unit,
      spread: spreadOfOne(estimate),
      scatterFrom: estimate.scatterFrom,
      count,
      tiers:
        rated === null
          ? tiers
          : tiers.map((tier) =>
              tier.layouts?.includes('four-corner-air')
                ? { ...tier, limits: { low: least * rated, high: most * rated } }
                : tier,
            ),
    };
  },
});
