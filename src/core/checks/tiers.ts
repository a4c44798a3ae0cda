import type { Basis } from '../finding.ts';
import type { Path } from '../flaw.ts';
import { type Layout, layouts, type State, states, type Weight } from '../job.ts';
import type { Says, Tier } from '../pack.ts';
import { formatNumber } from '../readings/format-number.ts';
import type { UnitName } from '../readings/units.ts';
import type { Limits } from '../readings/verdict.ts';
import { basisSchema, conditionsSchema, readBasis, saysSchema } from './common.ts';
import { type KindScope, quantitySchema, type Schema } from './kind.ts';
import { readQuantity } from './parameters.ts';

export const limitProperties: Readonly<Record<string, Schema>> = {
  between: { type: 'array', items: quantitySchema, minItems: 2, maxItems: 2 },
  'at-least': quantitySchema,
  'at-most': quantitySchema,
};

/** `tiers: [{weight: hold, between: [0.25 V, 4.75 V]}]` */
export const tiersSchema: Schema = {
  type: 'array',
  minItems: 1,
  items: {
    type: 'object',
    additionalProperties: false,
    required: ['weight'],
    properties: {
      weight: { enum: ['hold', 'look', 'note'] },
      ...limitProperties,
      in: { type: 'array', items: { enum: [...states] }, minItems: 1 },
      layouts: { type: 'array', items: { enum: [...layouts] }, minItems: 1 },
      needs: conditionsSchema,
      says: saysSchema,
      basis: basisSchema,
    },
  },
};

interface RawLimits {
  readonly between?: readonly unknown[];
  readonly 'at-least'?: unknown;
  readonly 'at-most'?: unknown;
}

/** Reads `between`, `at-least` and `at-most` into limits; reports a tier with none and a pair the wrong way round. */
export const readLimits = (raw: RawLimits, unit: UnitName, path: Path, scope: KindScope): Limits => {
  const [low, high] = raw.between ?? [raw['at-least'], raw['at-most']];
  const key = (name: string, index: number): Path =>
    raw.between ? [...path, 'between', index] : [...path, name];
  const limits = {
    low: low === undefined ? null : readQuantity(low, unit, key('at-least', 0), scope),
    high: high === undefined ? null : readQuantity(high, unit, key('at-most', 1), scope),
  };
  if (limits.low === null && limits.high === null) {
    const hint = 'give between: [low, high], at-least or at-most';
    scope.flaw({ code: 'missing-key', path, message: 'no limit is given', hint });
  }
  if (limits.low !== null && limits.high !== null && limits.low > limits.high) {
    const message = 'the lower limit is above the upper one';
    scope.flaw({ code: 'wrong-value', path, message, hint: 'write the smaller value first' });
  }
  return limits;
};

interface RawTier extends RawLimits {
  readonly weight: Weight;
  readonly in?: readonly State[];
  readonly layouts?: readonly Layout[];
  readonly needs?: Tier['needs'];
  readonly says?: Says;
  readonly basis?: Parameters<typeof readBasis>[0];
}

/** Reads `tiers`, each with the check's words and basis where it has none of its own. */
export const readTiers = (raw: unknown, unit: UnitName, scope: KindScope, key = 'tiers'): Tier[] =>
  (raw as RawTier[]).map((tier, index) => {
    const path = [key, index];
    const basis: Basis = tier.basis ? readBasis(tier.basis, [...path, 'basis'], scope.flaw) : scope.basis;
    return {
      weight: tier.weight,
      limits: readLimits(tier, unit, path, scope),
      states: tier.in ?? null,
      layouts: tier.layouts ?? null,
      needs: tier.needs ?? {},
      says: { ...scope.says, ...tier.says },
      basis,
    };
  });

/** `0.25 to 4.75 V`, `at least 11.8 V`. */
export const limitsText = ({ low, high }: Limits, unit: string): string => {
  const text = (value: number): string => formatNumber(value);
  if (low !== null && high !== null) return `${text(low)} to ${text(high)} ${unit}`;
  if (low !== null) return `at least ${text(low)} ${unit}`;
  return high === null ? 'any' : `at most ${text(high)} ${unit}`;
};

/** A line a tier, for `packs show`. */
export const tierLines = (tiers: readonly Tier[], unit: string): string[] =>
  tiers.map(({ weight, limits, states: only, layouts: fits, needs }) => {
    const wants = Object.entries(needs).map(([name, word]) => `${name} ${word}`);
    const where = [...(only ?? []), ...(fits ?? []), ...wants].join(', ');
    return `${weight}: ${limitsText(limits, unit)}${where && ` (${where})`}`;
  });
