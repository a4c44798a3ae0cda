import type { Basis, Missing, Remark } from '../../finding.ts';
import type { Snapshot } from '../../job.ts';
import type { Tier } from '../../pack.ts';
import { type Spread, spreadOfOne } from '../../readings/estimate.ts';
import { interpolate, type Points } from '../../readings/interpolate.ts';
import { rootSumSquares } from '../../readings/statistics.ts';
import { basisSchema, readBasis } from '../common.ts';
import { type KindScope, quantitySchema, type Schema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf } from '../outcome.ts';
import { readChannel, readPoints, readQuantity } from '../parameters.ts';
import { neverRead, take } from '../take.ts';
import { batteryTemperature, type Temperature } from '../temperature.ts';
import { readTiers, tierLines, tiersSchema } from '../tiers.ts';

/** The voltage of a rested battery and its charge, for one kind of battery. */
interface Table {
  readonly battery: string;
  readonly points: Points;
  readonly basis: Basis;
}

const pairs: Schema = {
  type: 'array',
  minItems: 2,
  items: { type: 'array', items: quantitySchema, minItems: 2, maxItems: 2 },
  'x-expected': 'pairs such as [12.4 V, 75 %]',
};

/** Rest voltage counts only after the surface charge has gone: rested long enough, or taken off with the lights. */
const notRested = ({ conditions }: Snapshot, wants: number): Missing | null => {
  if (conditions.words['surface-charge'] === 'taken-off') return null;
  if (conditions.rested === null) return { why: 'rest-not-stated', wants };
  const hours = conditions.rested.value;
  return hours < wants ? { why: 'not-rested', hours, wants } : null;
};

/** A flat battery freezes: the remark that warns of it, where the temperature was read at all. */
const frost = (
  charge: number,
  temperature: Temperature,
  freezing: { readonly gravity: Points; readonly celsius: Points } | null,
): Remark[] => {
  if (!freezing || temperature.remark.kind === 'temperature-assumed') return [];
  const freezes = interpolate(freezing.celsius, interpolate(freezing.gravity, charge).value).value;
  // A battery is no colder than the air around it was; one that was read may be as cold as its reading leaves open.
  const fromAir = temperature.remark.kind === 'temperature-from-air';
  const coldest = fromAir ? temperature.celsius : temperature.celsius - 2 * temperature.standard;
  return coldest <= freezes ? [{ kind: 'may-freeze', celsius: temperature.celsius, freezes }] : [];
};

const readTables = (raw: unknown, scope: KindScope): Table[] =>
  Object.entries(raw as Record<string, { points: unknown; basis: Parameters<typeof readBasis>[0] }>).map(
    ([battery, table]) => ({
      battery,
      points: readPoints(table.points, ['V', '%'], ['tables', battery, 'points'], scope),
      basis: readBasis(table.basis, ['tables', battery, 'basis'], scope.flaw),
    }),
  );

interface Freezing {
  readonly gravity: Points;
  readonly celsius: Points;
  /** Its basis in words. */
  readonly note: string;
}

const readFreezing = (raw: unknown, scope: KindScope): Freezing | null => {
  if (raw === undefined) return null;
  const tables = raw as {
    'specific-gravity': unknown;
    'freezes-at': unknown;
    basis: Parameters<typeof readBasis>[0];
  };
  const { kind, source } = readBasis(tables.basis, ['freezing', 'basis'], scope.flaw);
  return {
    note: source === null ? kind : `${kind}: ${source}`,
    // Specific gravity is a bare ratio; it is carried as a percentage only because packs know that unit.
    gravity: readPoints(tables['specific-gravity'], ['%', '%'], ['freezing', 'specific-gravity'], scope),
    celsius: readPoints(tables['freezes-at'], ['%', '°C'], ['freezing', 'freezes-at'], scope),
  };
};

interface StateOfCharge extends Measured {
  readonly of: string;
  readonly temperature: string;
  /** Hours that the battery must have rested. */
  readonly rested: number;
  /** Expanded uncertainty of the tables, in percent of charge. */
  readonly band: number;
  readonly tables: readonly Table[];
  readonly freezing: Freezing | null;
}

export const stateOfCharge = measuring<StateOfCharge>({
  kind: 'state-of-charge',
  about: 'State of charge of a rested battery from its voltage, as a band, by battery kind.',
  properties: {
    of: { type: 'string' },
    temperature: { type: 'string' },
    rested: quantitySchema,
    band: quantitySchema,
    tables: {
      type: 'object',
      minProperties: 1,
      additionalProperties: {
        type: 'object',
        additionalProperties: false,
        required: ['points', 'basis'],
        properties: { points: pairs, basis: basisSchema },
      },
    },
    freezing: {
      type: 'object',
      additionalProperties: false,
      required: ['specific-gravity', 'freezes-at', 'basis'],
      properties: { 'specific-gravity': pairs, 'freezes-at': pairs, basis: basisSchema },
    },
    tiers: tiersSchema,
  },
  required: ['of', 'temperature', 'rested', 'band', 'tables', 'tiers', 'in'],
  read: (raw, scope) => ({
    unit: '%',
    of: readChannel(raw.of, ['of'], scope)?.id ?? '',
    temperature: readChannel(raw.temperature, ['temperature'], scope)?.id ?? '',
    rested: readQuantity(raw.rested, 'h', ['rested'], scope),
    band: readQuantity(raw.band, '%', ['band'], scope),
    tables: readTables(raw.tables, scope),
    freezing: readFreezing(raw.freezing, scope),
    tiers: readTiers(raw.tiers, '%', scope),
  }),
  limits: ({ tiers, tables, freezing }) => [
    ...tierLines(tiers, '%'),
    ...tables.map(({ battery, points, basis }) => {
      const text = points.map(([volts, percent]) => `${volts} V ${percent} %`).join(', ');
      return `${battery}: ${text} (${basis.kind}${basis.source ? `: ${basis.source}` : ''})`;
    }),
    ...(freezing ? [`a flat battery freezes: ${freezing.note}`] : []),
  ],
  beforehand: neverRead,
  subjects: ({ of }) => [{ name: of, channels: [of] }],
  measure: (occasion, _subject, context, check, parameters) => {
    const { of, temperature, rested, band, tables, freezing, tiers } = parameters;
    const snapshot = newestOf(occasion);
    const taken = take(snapshot, of, context, check);
    if (!taken.ok) return missing(taken.missing);
    const { battery } = context.job.vehicle;
    if (battery === null) return missing({ why: 'vehicle-not-stated', what: 'battery' });
    const table = tables.find((one) => one.battery === battery);
    if (!table) return missing({ why: 'no-table', what: battery });
    const rest = notRested(snapshot, rested);
    if (rest) return missing(rest);
    const volts = spreadOfOne(taken.estimate);
    const charge = interpolate(table.points, taken.estimate.value, volts.total);
    // The band is an expanded uncertainty (k = 2) of the tables themselves; the meter's comes on top.
    const accuracy = rootSumSquares([band / 2, charge.slope * volts.accuracy]);
    const scatter = Math.abs(charge.slope) * volts.scatter;
    const spread: Spread = {
      scatter,
      accuracy,
      total: rootSumSquares([accuracy, scatter]),
      perReading: { sensitivity: Math.abs(charge.slope), unit: taken.estimate.unit },
      besides: { standard: band / 2, from: 'table' },
    };
    const celsius = batteryTemperature(snapshot, temperature, context);
    return {
      taken: true,
      value: charge.value,
      unit: '%',
      spread,
      scatterFrom: taken.estimate.scatterFrom,
      count: taken.count,
      tiers: tiers.map((tier): Tier => ({ ...tier, basis: table.basis })),
      remarks: [
        ...(charge.end === null ? [] : [{ kind: 'at-table-end' as const, end: charge.end }]),
        ...frost(charge.value, celsius, freezing),
      ],
    };
  },
});
