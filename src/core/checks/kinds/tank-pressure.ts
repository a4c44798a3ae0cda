import type { Weight } from '../../job.ts';
import type { Tier } from '../../pack.ts';
import { spreadOfOne } from '../../readings/estimate.ts';
import { formatNumber } from '../../readings/format-number.ts';
import { convert } from '../../readings/units.ts';
import type { Limits } from '../../readings/verdict.ts';
import { type Kind, quantitySchema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import { missing, newestOf } from '../outcome.ts';
import { readChannel, readQuantity } from '../parameters.ts';
import { pressureRate } from '../rate-units.ts';
import { neverRead, take } from '../take.ts';

/** A tank against what its vehicle is rated for; without a rating only against a floor. */
export const tankPressure: Kind = {
  kind: 'tank-pressure',
  about:
    "Tank pressure against shares of the vehicle's rated pressure; where it is not stated, against a floor alone.",
  properties: {
    of: { type: 'string' },
    floor: quantitySchema,
    'at-least-of-rated': quantitySchema,
    'at-most-of-rated': quantitySchema,
    weight: { enum: ['hold', 'look', 'note'] },
  },
  required: ['of', 'floor', 'at-least-of-rated', 'at-most-of-rated', 'weight', 'in'],
  read: (raw, scope) => {
    const channel = readChannel(raw.of, ['of'], scope);
    const unit = pressureRate(channel, 'h', scope).of;
    const id = channel?.id ?? '';
    const floor = readQuantity(raw.floor, unit, ['floor'], scope);
    const low = readQuantity(raw['at-least-of-rated'], '%', ['at-least-of-rated'], scope) / 100;
    const high = readQuantity(raw['at-most-of-rated'], '%', ['at-most-of-rated'], scope) / 100;
    const tierWith = (limits: Limits): Tier => ({
      weight: raw.weight as Weight,
      limits,
      states: null,
      layouts: null,
      needs: {},
      says: scope.says,
      basis: scope.basis,
    });
    const unrated = [tierWith({ low: floor, high: null })];
    return measuring({
      unit,
      limits: [
        `${raw.weight}: ${formatNumber(100 * low)} to ${formatNumber(100 * high)} % of the rated pressure; where none is stated at least ${formatNumber(floor)} ${unit}`,
      ],
      tiers: unrated,
      beforehand: neverRead,
      subjects: () => [{ name: id, channels: [id] }],
      measure: (occasion, _subject, scene, check) => {
        const taken = take(newestOf(occasion), id, scene, check);
        if (!taken.ok) return missing(taken.missing);
        const { estimate, count } = taken;
        const { ratedPressure } = scene.job.vehicle.air;
        const rated = ratedPressure === null ? null : convert(ratedPressure, 'psi', estimate.unit);
        return {
          taken: true,
          value: estimate.value,
          unit: estimate.unit,
          spread: spreadOfOne(estimate),
          scatterFrom: estimate.scatterFrom,
          count,
          tiers: rated === null ? unrated : [tierWith({ low: low * rated, high: high * rated })],
        };
      },
    });
  },
};
