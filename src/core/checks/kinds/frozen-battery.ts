import type { Missing } from '../../finding.ts';
import type { Snapshot, Weight } from '../../job.ts';
import type { Check, Scene } from '../../pack.ts';
import { estimate, spreadOfOne } from '../../readings/estimate.ts';
import { freezingPoint } from '../../readings/freezing-point.ts';
import { interpolate } from '../../readings/interpolate.ts';
import { convert, convertSpan } from '../../readings/units.ts';
import {
  type ChargeTable,
  chargeTablesSchema,
  type Freezing,
  freezingSchema,
  notRested,
  readChargeTables,
  readFreezing,
} from '../battery-tables.ts';
import { type Kind, quantitySchema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import { missing, newestOf, type Outcome } from '../outcome.ts';
import { readChannel, readQuantity } from '../parameters.ts';
import { disturbedBetween } from '../runs.ts';
import { estimateOf, instrumentNamed, take } from '../take.ts';
import { readWords } from '../word-outcome.ts';

interface Parts {
  readonly channel: string;
  readonly temperature: string;
  /** Hours of rest before the volts mean anything. */
  readonly rested: number;
  /** Half-width of the tables, %. */
  readonly band: number;
  readonly tables: ReadonlyMap<string, ChargeTable>;
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
  scene: Scene,
): { readonly celsius: number; readonly expanded: number } | null => {
  const reading = snapshot.readings.get(temperature);
  if (reading?.kind !== 'values') return null;
  const taken = estimateOf(scene, temperature, reading.values, reading.by);
  return {
    celsius: convert(taken.value, taken.unit, '°C'),
    expanded: 2 * convertSpan(spreadOfOne(taken).total, taken.unit, '°C'),
  };
};

const coldestOf = (snapshot: Snapshot, parts: Parts, scene: Scene): Coldest | null => {
  const own = ownTemperature(snapshot, parts, scene);
  if (own) return { celsius: own.celsius, coldest: own.celsius - own.expanded, weight: 'hold' };
  const { air, rested } = snapshot.conditions;
  if (!air) return null;
  const read = estimate([air], '°C', instrumentNamed(scene, 'thermometer'));
  const stood = rested !== null && rested.value >= parts.stood;
  const apart = stood ? parts.near : parts.far;
  const coldest = read.value - apart - 2 * spreadOfOne(read).total;
  return { celsius: read.value, coldest, weight: stood ? 'hold' : 'look' };
};

type Frozen =
  | { readonly ok: true; readonly frost: Frost; readonly may: boolean }
  | { readonly ok: false; readonly missing: Missing };

/** What one snapshot says: the lowest charge that its volts leave open against the coldest that it may be. */
const frostAt = (snapshot: Snapshot, parts: Parts, scene: Scene, check: Check): Frozen => {
  const refused = (reason: Missing): Frozen => ({ ok: false, missing: reason });
  const taken = take(snapshot, parts.channel, scene, check);
  if (!taken.ok) return taken;
  const { battery } = scene.job.vehicle;
  if (battery === null) return refused({ why: 'vehicle-not-stated', what: 'battery' });
  const table = parts.tables.get(battery);
  if (!table) return refused({ why: 'no-table', what: battery });
  const rest = notRested(snapshot, parts.rested);
  if (rest) return refused(rest);
  const cold = coldestOf(snapshot, parts, scene);
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
const openBefore = (snapshot: Snapshot, parts: Parts, scene: Scene, check: Check): Frost | null => {
  let open: { readonly frost: Frost; readonly at: Snapshot } | null = null;
  for (const earlier of scene.job.snapshots) {
    if (earlier.stamp.at >= snapshot.stamp.at) break;
    const own = ownTemperature(earlier, parts, scene);
    if (own && own.celsius - own.expanded > parts.thawed) open = null;
    if (earlier.state !== 'rest') continue;
    const read = frostAt(earlier, parts, scene, check);
    if (read.ok && read.may) open = { frost: read.frost, at: earlier };
  }
  return open === null || disturbedBetween(scene, [parts.channel], open.at, snapshot) ? null : open.frost;
};

/** Whether a rested battery may be frozen: no doubt is left to its favour, since charging one can burst it. */
export const frozenBattery: Kind = {
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
    const parts: Parts = {
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
    const { tierOf } = readWords<'frost'>(undefined, ['frost'], [], scope);
    const measure = (snapshot: Snapshot, scene: Scene, check: Check): Outcome => {
      const read = frostAt(snapshot, parts, scene, check);
      const own = ownTemperature(snapshot, parts, scene);
      const thawed = own !== null && own.celsius - own.expanded > parts.thawed;
      const before = thawed ? null : openBefore(snapshot, parts, scene, check);
      if (!read.ok && before === null) return missing(read.missing);
      const now = read.ok && read.may ? read.frost : null;
      const frost = before !== null && (now === null || before.weight === 'hold') ? before : now;
      if (frost === null)
        return { taken: true, verdict: 'within', tiers: [tierOf('frost', 'hold')], remarks: [] };
      const { celsius: is, freezes, weight } = frost;
      return {
        taken: true,
        verdict: 'out',
        tiers: [tierOf('frost', weight)],
        remarks: [{ kind: 'may-freeze', celsius: is, freezes }],
      };
    };
    return measuring({
      unit: null,
      limits: [
        'hold: its freezing point at that charge is at or above the coldest that it may be; look where it stood too short to be as cold as the air',
        `until it was read over ${parts.thawed} °C`,
        `freezing: ${freezing.note}`,
      ],
      tiers: [tierOf('frost', 'hold')],
      subjects: () => [{ name: parts.channel, channels: [parts.channel, parts.temperature] }],
      measure: (occasion, _subject, scene, check) => measure(newestOf(occasion), scene, check),
    });
  },
};
