import type { Missing } from '../../../finding.ts';
import type { Snapshot, Weight } from '../../../job.ts';
import type { Check } from '../../../pack.ts';
import { estimate, spreadOfOne } from '../../../readings/estimate.ts';
import { freezingPoint } from '../../../readings/freezing-point.ts';
import { instrumentNamed } from '../../../readings/instruments.ts';
import { interpolate } from '../../../readings/interpolate.ts';
import { convert, convertSpan } from '../../../readings/units.ts';
import type { CheckContext } from '../../check-context.ts';
import { quantitySchema } from '../../kind.ts';
import { measuring } from '../../measuring.ts';
import type { Measured } from '../../measuring-parts.ts';
import { missing, newestOf } from '../../outcome.ts';
import { disturbedBetween } from '../../over-time/runs.ts';
import { readChannel, readQuantity } from '../../parameters.ts';
import { estimateOf, take } from '../../take.ts';
import { plainTier } from '../../word-outcome.ts';
import {
  type ChargeTable,
  chargeTablesSchema,
  type Freezing,
  freezingSchema,
  notRested,
  readChargeTables,
  readFreezing,
} from './battery-tables.ts';

interface Parts extends Measured {
  readonly channel: string;
  readonly temperature: string;
  /** Hours of rest before the volts mean anything. */
  readonly rested: number;
  /** Half-width of the tables, %. */
  readonly band: number;
  readonly tables: readonly ChargeTable[];
  readonly freezing: Freezing;
  /** How long it must have stood to be as cold as the air, h, and how near it then is; how near before, °C. */
  readonly stood: number;
  readonly near: number;
  readonly far: number;
  /** The temperature over which it has thawed, °C. */
  readonly thawed: number;
}

interface Coldest {
  readonly celsius: number;
  /** The coldest that the reading leaves open, °C. */
  readonly coldest: number;
  /** Look where only the air was read and the battery may not have taken its temperature. */
  readonly weight: Weight;
}

interface Frost {
  readonly celsius: number;
  readonly freezes: number;
  readonly weight: Weight;
}

/** The battery's own temperature where it was read, °C, with its expanded uncertainty. */
const ownTemperature = (
  snapshot: Snapshot,
  { temperature }: Parts,
  context: CheckContext,
): { readonly celsius: number; readonly expanded: number } | null => {
  const reading = snapshot.readings.get(temperature);
  if (reading?.kind !== 'values') return null;
  const taken = estimateOf(context, temperature, reading.values, reading.by);
  return {
    celsius: convert(taken.value, taken.unit, '°C'),
    expanded: 2 * convertSpan(spreadOfOne(taken).total, taken.unit, '°C'),
  };
};

const coldestOf = (snapshot: Snapshot, parts: Parts, context: CheckContext): Coldest | null => {
  const own = ownTemperature(snapshot, parts, context);
  if (own) return { celsius: own.celsius, coldest: own.celsius - own.expanded, weight: 'hold' };
  const { air, rested } = snapshot.conditions;
  if (!air) return null;
  const read = estimate([air], '°C', instrumentNamed(context.job.instruments, 'thermometer'));
  const stood = rested !== null && rested.value >= parts.stood;
  const apart = stood ? parts.near : parts.far;
  const coldest = read.value - apart - 2 * spreadOfOne(read).total;
  return { celsius: read.value, coldest, weight: stood ? 'hold' : 'look' };
};

type Frozen =
  | { readonly ok: true; readonly frost: Frost; readonly may: boolean }
  | { readonly ok: false; readonly missing: Missing };

/** What one snapshot says: the lowest charge that its volts leave open against the coldest that it may be. */
const frostAt = (snapshot: Snapshot, parts: Parts, context: CheckContext, check: Check): Frozen => {
  const refused = (reason: Missing): Frozen => ({ ok: false, missing: reason });
  const taken = take(snapshot, parts.channel, context, check);
  if (!taken.ok) return taken;
  const { battery } = context.job.vehicle;
  if (battery === null) return refused({ why: 'vehicle-not-stated', what: 'battery' });
  const table = parts.tables.find((one) => one.battery === battery);
  if (!table) return refused({ why: 'no-table', what: battery });
  const rest = notRested(snapshot, parts.rested);
  if (rest) return refused(rest);
  const cold = coldestOf(snapshot, parts, context);
  if (!cold) return refused({ why: 'no-reading', states: check.states, channels: [parts.temperature] });
  const volts = taken.estimate.value - 2 * spreadOfOne(taken.estimate).total;
  const charge = Math.max(0, interpolate(table.points, volts).value - parts.band);
  const freezes = freezingPoint(charge, parts.freezing);
  return {
    ok: true,
    frost: { celsius: cold.celsius, freezes, weight: cold.weight },
    may: cold.coldest <= freezes,
  };
};

/**
 * What is still open from earlier readings: a battery that may have frozen counts as frozen until its own temperature
 * was read over the one at which it has thawed, or somebody worked on it.
 */
const openBefore = (snapshot: Snapshot, parts: Parts, context: CheckContext, check: Check): Frost | null => {
  let open: { readonly frost: Frost; readonly at: Snapshot } | null = null;
  for (const earlier of context.job.snapshots) {
    if (earlier.stamp.at >= snapshot.stamp.at) break;
    const own = ownTemperature(earlier, parts, context);
    if (own && own.celsius - own.expanded > parts.thawed) open = null;
    if (earlier.state !== 'rest') continue;
    const read = frostAt(earlier, parts, context, check);
    if (read.ok && read.may) open = { frost: read.frost, at: earlier };
  }
  return open === null || disturbedBetween(context, [parts.channel], open.at, snapshot) ? null : open.frost;
};

/** Whether a rested battery may be frozen: no doubt is left to its favour, since charging one can burst it. */
export const frozenBattery = measuring<Parts>({
  kind: 'frozen-battery',
  about:
    'Whether a rested battery may be frozen, by its volts, its kind and its temperature or that of the air.',
  properties: {
    of: { type: 'string' },
    temperature: { type: 'string' },
    rested: quantitySchema,
    band: quantitySchema,
    tables: chargeTablesSchema,
    freezing: freezingSchema,
    /** How long it must have stood to be as cold as the air. */
    stood: quantitySchema,
    /** How far it then may be from the air, and how far before. */
    'near-air': quantitySchema,
    'far-from-air': quantitySchema,
    /** Read over this it has thawed. */
    thawed: quantitySchema,
  },
  required: [
    'of',
    'temperature',
    'rested',
    'band',
    'tables',
    'freezing',
    'stood',
    'near-air',
    'far-from-air',
    'thawed',
    'in',
  ],
  read: (raw, scope) => {
    const freezing = readFreezing(raw.freezing, scope);
    if (!freezing) throw new Error('the schema asks for the freezing tables');
    const celsius = (key: string): number => readQuantity(raw[key], '°C', [key], scope);
    return {
      unit: null,
      tiers: [plainTier('hold', scope)],
      channel: readChannel(raw.of, ['of'], scope)?.id ?? '',
      temperature: readChannel(raw.temperature, ['temperature'], scope)?.id ?? '',
      rested: readQuantity(raw.rested, 'h', ['rested'], scope),
      band: readQuantity(raw.band, '%', ['band'], scope),
      tables: readChargeTables(raw.tables, scope),
      freezing,
      stood: readQuantity(raw.stood, 'h', ['stood'], scope),
      near: celsius('near-air'),
      far: celsius('far-from-air'),
      thawed: celsius('thawed'),
    };
  },
  limits: ({ thawed, freezing }) => [
    'hold: its freezing point at that charge is at or above the coldest that it may be; look where it stood too short to be as cold as the air',
    `until it was read over ${thawed} °C`,
    `freezing: ${freezing.note}`,
  ],
  subjects: ({ channel, temperature }) => [{ name: channel, channels: [channel, temperature] }],
  measure: (occasion, _subject, context, check, parts) => {
    const snapshot = newestOf(occasion);
    const read = frostAt(snapshot, parts, context, check);
    const own = ownTemperature(snapshot, parts, context);
    const thawed = own !== null && own.celsius - own.expanded > parts.thawed;
    const before = thawed ? null : openBefore(snapshot, parts, context, check);
    if (!read.ok && before === null) return missing(read.missing);
    const now = read.ok && read.may ? read.frost : null;
    const frost = before !== null && (now === null || before.weight === 'hold') ? before : now;
    if (frost === null) return { taken: true, verdict: 'within', tiers: parts.tiers, remarks: [] };
    const { celsius, freezes, weight } = frost;
    return {
      taken: true,
      verdict: 'out',
      tiers: parts.tiers.map((tier) => ({ ...tier, weight })),
      remarks: [{ kind: 'may-freeze', celsius, freezes }],
    };
  },
});
