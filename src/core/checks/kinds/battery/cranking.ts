import type { Weight } from '../../../job.ts';
import type { Tier } from '../../../pack.ts';
import { interpolate } from '../../../readings/interpolate.ts';
import { convert } from '../../../readings/units.ts';
import { basisSchema, readBasis } from '../../common.ts';
import { quantitySchema } from '../../kind.ts';
import { measuring } from '../../measuring.ts';
import type { Measured } from '../../measuring-parts.ts';
import { missing, newestOf } from '../../outcome.ts';
import { readChannel, readPoints } from '../../parameters.ts';
import { neverRead, take } from '../../take.ts';
import { againstShifted } from './shifted.ts';
import { batteryTemperature } from './temperature.ts';

interface Cranking extends Measured {
  readonly of: string;
  readonly temperature: string;
  /** Battery temperature and least voltage; the tier has no limit of its own. */
  readonly points: readonly (readonly [number, number])[];
}

const noLimits = { low: null, high: null } as const;

/** Least steady cranking voltage by battery temperature, straight lines between the points of a table. */
export const cranking = measuring<Cranking>({
  kind: 'cranking',
  about: 'Steady cranking voltage against a least value that falls with the battery temperature.',
  properties: {
    of: { type: 'string' },
    temperature: { type: 'string' },
    weight: { enum: ['hold', 'look', 'note'] },
    'at-least': {
      type: 'array',
      minItems: 2,
      items: { type: 'array', items: quantitySchema, minItems: 2, maxItems: 2 },
      'x-expected': 'pairs of temperature and voltage, such as [60 F, 9.5 V]',
    },
    'table-basis': basisSchema,
  },
  required: ['of', 'temperature', 'weight', 'at-least', 'in'],
  read: (raw, scope) => {
    const channel = readChannel(raw.of, ['of'], scope);
    const temperature = readChannel(raw.temperature, ['temperature'], scope);
    const unit = channel?.unit ?? 'V';
    const points = readPoints(raw['at-least'], ['°C', unit], ['at-least'], scope);
    const basis = raw['table-basis']
      ? readBasis(raw['table-basis'] as Parameters<typeof readBasis>[0], ['table-basis'], scope.flaw)
      : scope.basis;
    const tier: Tier = {
      weight: raw.weight as Weight,
      limits: noLimits,
      states: null,
      layouts: null,
      needs: {},
      says: scope.says,
      basis,
    };
    return { unit, tiers: [tier], of: channel?.id ?? '', temperature: temperature?.id ?? '', points };
  },
  limits: ({ points, tiers, unit }) =>
    points.map(
      ([celsius, volts]) =>
        `${tiers[0]?.weight}: at least ${volts} ${unit} at ${convert(celsius, '°C', '°F').toFixed(0)} °F`,
    ),
  beforehand: neverRead,
  subjects: ({ of }) => [{ name: of, channels: [of] }],
  measure: (occasion, _subject, context, check, { of, temperature, points, tiers }) => {
    const snapshot = newestOf(occasion);
    const taken = take(snapshot, of, context, check);
    if (!taken.ok) return missing(taken.missing);
    const battery = batteryTemperature(snapshot, temperature, context);
    const least = interpolate(points, battery.celsius, battery.standard);
    const limits = { low: least.value, high: null };
    const remarks = least.end === null ? [] : [{ kind: 'at-table-end' as const, end: least.end }];
    return againstShifted(
      taken,
      battery,
      least.slope,
      tiers.map((tier) => ({ ...tier, limits })),
      remarks,
    );
  },
});
