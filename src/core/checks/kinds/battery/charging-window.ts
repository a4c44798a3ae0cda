import type { Remark } from '../../../finding.ts';
import type { ConditionName, Snapshot } from '../../../job.ts';
import type { Check, Tier } from '../../../pack.ts';
import { spreadOfOne } from '../../../readings/estimate.ts';
import type { Limits } from '../../../readings/verdict.ts';
import type { CheckContext } from '../../check-context.ts';
import { conditionsSchema } from '../../common.ts';
import { quantitySchema } from '../../kind.ts';
import { measuring } from '../../measuring.ts';
import type { Measured } from '../../measuring-parts.ts';
import { missing, newestOf } from '../../outcome.ts';
import { disturbedBetween } from '../../over-time/runs.ts';
import { readChannel, readQuantity } from '../../parameters.ts';
import { estimateOf, neverRead, take } from '../../take.ts';
import { readTiers, tierLines, tiersSchema } from '../../tiers.ts';
import { notRested } from './battery-tables.ts';
import { againstShifted } from './shifted.ts';
import { batteryTemperature } from './temperature.ts';

interface Compensation {
  /** Volts per °C, the whole battery: negative, since a colder battery wants more. */
  readonly slope: number;
  readonly at: number;
  /** Hold limits stay inside these at any temperature. */
  readonly clamp: Limits;
  /** Temperature moves a limit outwards only. */
  readonly widens: boolean;
}

/** What keeps a finding from being heavier than a look. */
interface Allowances {
  readonly holdNeeds: Check['needs'];
  /** Volts of a rested battery below which it is under half, by its kind. */
  readonly flat: Readonly<Record<string, number>>;
  /** Hours of rest that those volts want. */
  readonly rested: number;
}

/** The newest rest reading of the battery before a snapshot that says anything of its charge, V. */
const restedVolts = (
  snapshot: Snapshot,
  channel: string,
  rested: number,
  context: CheckContext,
): number | null => {
  const rest = context.job.snapshots.findLast(
    (one) =>
      one.state === 'rest' &&
      one.stamp.at <= snapshot.stamp.at &&
      one.readings.get(channel)?.kind === 'values' &&
      notRested(one, rested) === null,
  );
  const reading = rest?.readings.get(channel);
  if (rest === undefined || reading?.kind !== 'values') return null;
  if (disturbedBetween(context, [channel], rest, snapshot)) return null;
  return estimateOf(context, channel, reading.values, reading.by).value;
};

const lookOnly = (
  snapshot: Snapshot,
  channel: string,
  { holdNeeds, flat, rested }: Allowances,
  context: CheckContext,
): Remark[] => {
  const remarks: Remark[] = [];
  for (const [condition, wants] of Object.entries(holdNeeds)) {
    if (snapshot.conditions.words[condition as ConditionName] !== wants)
      remarks.push({ kind: 'look-unless', condition, wants });
  }
  const limit = flat[context.job.vehicle.battery ?? ''];
  const volts = limit === undefined ? null : restedVolts(snapshot, channel, rested, context);
  if (limit !== undefined && volts !== null && volts < limit)
    remarks.push({ kind: 'look-since-flat', volts });
  return remarks;
};

const shift = (tier: Tier, by: number, { clamp, widens }: Compensation): Tier => {
  const moved = (limit: number | null, side: 'low' | 'high'): number | null => {
    if (limit === null) return null;
    // A window that only widens keeps its lower limit in the cold and its upper one in the heat.
    const own = !widens ? by : side === 'low' ? Math.min(0, by) : Math.max(0, by);
    const raised = limit + own;
    if (tier.weight !== 'hold') return raised;
    return Math.min(Math.max(raised, clamp.low ?? raised), clamp.high ?? raised);
  };
  return { ...tier, limits: { low: moved(tier.limits.low, 'low'), high: moved(tier.limits.high, 'high') } };
};

interface ChargingWindow extends Measured, Compensation, Allowances {
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
    /** `widens`: temperature moves a limit outwards only. */
    'temperature-effect': { enum: ['shifts', 'widens'] },
    /** Conditions without which it is only worth a look. */
    'hold-needs': conditionsSchema,
    /** Volts of a rested battery under which it is only worth a look, by its kind, and the rest that they want. */
    'flat-below': { type: 'object', additionalProperties: quantitySchema },
    'flat-rested': quantitySchema,
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
      widens: raw['temperature-effect'] === 'widens',
      holdNeeds: (raw['hold-needs'] ?? {}) as Check['needs'],
      flat: Object.fromEntries(
        Object.entries((raw['flat-below'] ?? {}) as Record<string, unknown>).map(([battery, volts]) => [
          battery,
          readQuantity(volts, unit, ['flat-below', battery], scope),
        ]),
      ),
      rested: readQuantity(raw['flat-rested'] ?? '3 h', 'h', ['flat-rested'], scope),
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
  measure: (occasion, _subject, context, check, parameters) => {
    const { of, temperature, tiers, managed, slope, at } = parameters;
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
    const look = lookOnly(snapshot, of, parameters, context);
    const outcome = againstShifted(
      taken,
      battery,
      slope,
      tiers.map((tier) => shift(tier, by, parameters)),
      look,
    );
    return look.length > 0 && outcome.taken && 'value' in outcome ? { ...outcome, cap: 'look' } : outcome;
  },
});
