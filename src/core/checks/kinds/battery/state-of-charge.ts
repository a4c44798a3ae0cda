import type { Remark } from '../../../finding.ts';
import type { Tier } from '../../../pack.ts';
import { type Spread, spreadOfOne } from '../../../readings/estimate.ts';
import { freezingPoint } from '../../../readings/freezing-point.ts';
import { interpolate } from '../../../readings/interpolate.ts';
import { rootSumSquares } from '../../../readings/statistics.ts';
import { quantitySchema } from '../../kind.ts';
import { measuring } from '../../measuring.ts';
import type { Measured } from '../../measuring-parts.ts';
import { missing, newestOf } from '../../outcome.ts';
import { readChannel, readQuantity } from '../../parameters.ts';
import { neverRead, take } from '../../take.ts';
import { readTiers, tierLines, tiersSchema } from '../../tiers.ts';
import {
  type ChargeTable,
  chargeTablesSchema,
  type Freezing,
  notRested,
  readChargeTables,
  readFreezing,
  toldFreezingSchema,
} from './battery-tables.ts';
import { batteryTemperature, type Temperature } from './temperature.ts';

/** A flat battery freezes: the remark that warns of it, where the temperature was read at all. */
const frost = (charge: number, temperature: Temperature, freezing: Freezing | null): Remark[] => {
  if (!freezing || temperature.remark.kind === 'temperature-assumed') return [];
  const freezes = freezingPoint(charge, freezing);
  // A battery is no colder than the air around it was; one that was read may be as cold as its reading leaves open.
  const fromAir = temperature.remark.kind === 'temperature-from-air';
  const coldest = fromAir ? temperature.celsius : temperature.celsius - 2 * temperature.standard;
  return coldest <= freezes ? [{ kind: 'may-freeze', celsius: temperature.celsius, freezes }] : [];
};

interface StateOfCharge extends Measured {
  readonly of: string;
  readonly temperature: string;
  /** Hours that the battery must have rested. */
  readonly rested: number;
  /** Expanded uncertainty of the tables, in percent of charge. */
  readonly band: number;
  readonly tables: readonly ChargeTable[];
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
    tables: chargeTablesSchema,
    freezing: toldFreezingSchema,
    tiers: tiersSchema,
  },
  required: ['of', 'temperature', 'rested', 'band', 'tables', 'tiers', 'in'],
  read: (raw, scope) => ({
    unit: '%',
    of: readChannel(raw.of, ['of'], scope)?.id ?? '',
    temperature: readChannel(raw.temperature, ['temperature'], scope)?.id ?? '',
    rested: readQuantity(raw.rested, 'h', ['rested'], scope),
    band: readQuantity(raw.band, '%', ['band'], scope),
    tables: readChargeTables(raw.tables, scope),
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
      terms: [{ estimate: taken.estimate, sensitivity: charge.slope }],
      beside: band / 2,
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
