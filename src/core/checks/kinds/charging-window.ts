import type { Tier } from '../../pack.ts';
import { spreadOfOne } from '../../readings/estimate.ts';
import type { Limits } from '../../readings/verdict.ts';
import { quantitySchema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf } from '../outcome.ts';
import { readChannel, readQuantity } from '../parameters.ts';
import { againstShifted } from '../shifted.ts';
import { neverRead, take } from '../take.ts';
import { batteryTemperature } from '../temperature.ts';
import { readTiers, tierLines, tiersSchema } from '../tiers.ts';

interface Compensation {
  /** Volts per °C, the whole battery: negative, since a colder battery wants more. */
  readonly slope: number;
  readonly at: number;
  /** Hold limits stay inside these at any temperature. */
  readonly clamp: Limits;
}

const shift = (tier: Tier, by: number, clamp: Limits): Tier => {
  const moved = (limit: number | null): number | null => {
    if (limit === null) return null;
    const raised = limit + by;
    if (tier.weight !== 'hold') return raised;
    return Math.min(Math.max(raised, clamp.low ?? raised), clamp.high ?? raised);
  };
  return { ...tier, limits: { low: moved(tier.limits.low), high: moved(tier.limits.high) } };
};

interface ChargingWindow extends Measured, Compensation {
  readonly of: string;
  readonly temperature: string;
  /** Tiers for a generator that is told what to give. */
  readonly managed: readonly Tier[];
}

/** Limits that are given at one temperature and shift with the battery's. */
export const chargingWindow = measuring<ChargingWindow>({
  kind: 'charging-window',
  about: 'Charging voltage against a window that shifts with the battery temperature.',
  properties: {
    of: { type: 'string' },
    temperature: { type: 'string' },
    'at-temperature': quantitySchema,
    'per-degree-and-cell': quantitySchema,
    cells: { type: 'integer', minimum: 1, maximum: 24 },
    'hold-inside': { type: 'array', items: quantitySchema, minItems: 2, maxItems: 2 },
    tiers: tiersSchema,
    /** Tiers for a generator that is told what to give: they do not shift, and mostly want a heavy load. */
    managed: tiersSchema,
  },
  required: [
    'of',
    'temperature',
    'at-temperature',
    'per-degree-and-cell',
    'cells',
    'hold-inside',
    'tiers',
    'in',
  ],
  read: (raw, scope) => {
    const channel = readChannel(raw.of, ['of'], scope);
    const temperature = readChannel(raw.temperature, ['temperature'], scope);
    const unit = channel?.unit ?? 'V';
    const tiers = readTiers(raw.tiers, unit, scope);
    const inside = raw['hold-inside'] as unknown[];
    return {
      unit,
      tiers,
      of: channel?.id ?? '',
      temperature: temperature?.id ?? '',
      managed: raw.managed === undefined ? [] : readTiers(raw.managed, unit, scope, 'managed'),
      slope:
        -readQuantity(raw['per-degree-and-cell'], unit, ['per-degree-and-cell'], scope) * Number(raw.cells),
      at: readQuantity(raw['at-temperature'], '°C', ['at-temperature'], scope),
      clamp: {
        low: readQuantity(inside[0], unit, ['hold-inside', 0], scope),
        high: readQuantity(inside[1], unit, ['hold-inside', 1], scope),
      },
    };
  },
  limits: ({ unit, tiers, managed, at, slope }) => [
    ...tierLines(tiers, `${unit} at ${at} °C`),
    `shift: ${(slope * 1000).toFixed(0)} mV per °C`,
    ...tierLines(managed, `${unit} with managed charging`),
  ],
  beforehand: neverRead,
  subjects: ({ of }) => [{ name: of, channels: [of] }],
  measure: (occasion, _subject, context, check, { of, temperature, tiers, managed, slope, at, clamp }) => {
    const snapshot = newestOf(occasion);
    const taken = take(snapshot, of, context, check);
    if (!taken.ok) return missing(taken.missing);
    const { charging } = context.job.vehicle;
    if (charging === null) return missing({ why: 'vehicle-not-stated', what: 'charging' });
    if (charging === 'managed') {
      if (managed.length === 0) return missing({ why: 'no-limits', what: `${charging} charging` });
      return {
        taken: true,
        value: taken.estimate.value,
        unit: taken.estimate.unit,
        spread: spreadOfOne(taken.estimate),
        scatterFrom: taken.estimate.scatterFrom,
        count: taken.count,
        tiers: managed,
      };
    }
    const battery = batteryTemperature(snapshot, temperature, context);
    const by = slope * (battery.celsius - at);
    return againstShifted(
      taken,
      battery,
      slope,
      tiers.map((tier) => shift(tier, by, clamp)),
    );
  },
});
