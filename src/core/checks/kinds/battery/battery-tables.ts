import type { Basis, Missing } from '../../../finding.ts';
import type { Snapshot } from '../../../job.ts';
import type { FreezingTables } from '../../../readings/freezing-point.ts';
import type { Points } from '../../../readings/interpolate.ts';
import { basisSchema, readBasis } from '../../common.ts';
import { type KindScope, quantitySchema, type Schema, toldSchema, unitlessSchema } from '../../kind.ts';
import { readPoints } from '../../parameters.ts';

/** Rest voltage to state of charge of one kind of battery. */
export interface ChargeTable {
  readonly battery: string;
  readonly points: Points;
  readonly basis: Basis;
}

const pairsOf = (x: Schema, y: Schema): Schema => ({
  type: 'array',
  minItems: 2,
  items: { type: 'array', items: [x, y], minItems: 2, maxItems: 2 },
  'x-expected': 'pairs such as [12.4 V, 75 %]',
});

/** Rest voltage counts only after the surface charge has gone: rested long enough, or taken off with the lights. */
export const notRested = ({ conditions }: Snapshot, wants: number): Missing | null => {
  if (conditions.words['surface-charge'] === 'taken-off') return null;
  if (conditions.rested === null) return { why: 'rest-not-stated', wants };
  const hours = conditions.rested.value;
  return hours < wants ? { why: 'not-rested', hours, wants } : null;
};

/** `tables: {flooded: {points: [[12.4 V, 75 %], …], basis: …}}`, by kind of battery. */
export const chargeTablesSchema: Schema = {
  type: 'object',
  minProperties: 1,
  additionalProperties: {
    type: 'object',
    additionalProperties: false,
    required: ['points', 'basis'],
    properties: { points: pairsOf(quantitySchema, quantitySchema), basis: basisSchema },
  },
};

const freezingOf = (withUnit: Schema, unitless: Schema): Schema => ({
  type: 'object',
  additionalProperties: false,
  required: ['specific-gravity', 'freezes-at', 'basis'],
  properties: {
    'specific-gravity': pairsOf(withUnit, unitless),
    'freezes-at': pairsOf(unitless, withUnit),
    basis: basisSchema,
  },
});

/** `freezing: {specific-gravity: […], freezes-at: […], basis: …}` */
export const freezingSchema: Schema = freezingOf(quantitySchema, unitlessSchema);

/** The same where only a remark depends on it. */
export const toldFreezingSchema: Schema = freezingOf(toldSchema, toldSchema);

export const readChargeTables = (raw: unknown, scope: KindScope): ChargeTable[] =>
  Object.entries(raw as Record<string, { points: unknown; basis: Parameters<typeof readBasis>[0] }>).map(
    ([battery, table]) => ({
      battery,
      points: readPoints(table.points, ['V', '%'], ['tables', battery, 'points'], scope),
      basis: readBasis(table.basis, ['tables', battery, 'basis'], scope.flaw),
    }),
  );

export interface Freezing extends FreezingTables {
  /** Its basis in words. */
  readonly note: string;
}

export const readFreezing = (raw: unknown, scope: KindScope): Freezing | null => {
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
