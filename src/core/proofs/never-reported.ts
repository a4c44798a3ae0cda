import type { Schema } from '../checks/kind.ts';
import { kindOf } from '../checks/kinds/index.ts';
import { weightOrder } from '../finding.ts';
import type { Path } from '../flaw.ts';
import { type Layout, layouts, type State, type Weight } from '../job.ts';
import type { Check } from '../pack.ts';
import { parseQuantity } from '../readings/parse-quantity.ts';
import type { UnitName } from '../readings/units.ts';
import type { Gap } from './gaps.ts';
import { rawOf } from './quantities.ts';

/** A tier as its pack has it. */
interface RawTier {
  readonly weight: Weight;
  readonly between?: readonly unknown[];
  readonly 'at-least'?: unknown;
  readonly 'at-most'?: unknown;
  readonly in?: readonly State[];
  readonly layouts?: readonly Layout[];
  readonly needs?: Readonly<Record<string, string>>;
  /** What it waits for: such a tier does not always judge. */
  readonly once?: unknown;
}

type Side = 'low' | 'high';

interface Limit {
  readonly text: string;
  readonly value: number;
  /** From the tier. */
  readonly path: Path;
}

const limitOf = (tier: RawTier, side: Side, unit: UnitName): Limit | null => {
  const index = side === 'low' ? 0 : 1;
  const key = side === 'low' ? 'at-least' : 'at-most';
  const raw = tier.between?.[index] ?? tier[key];
  if (raw === undefined) return null;
  const text = String(raw);
  const typed = parseQuantity(text, unit);
  return typed.ok
    ? { text, value: typed.value.value, path: tier.between ? ['between', index] : [key] }
    : null;
};

const contains = <T>(all: readonly T[], some: readonly T[]): boolean =>
  some.every((one) => all.includes(one));

/** Whether a tier judges wherever another of its check does. */
const servesAll = (tier: RawTier, other: RawTier, check: Check): boolean =>
  tier.once === undefined &&
  contains(tier.in ?? check.states, other.in ?? check.states) &&
  contains(tier.layouts ?? layouts, other.layouts ?? layouts) &&
  Object.entries(tier.needs ?? {}).every(([name, word]) => other.needs?.[name] === word);

const isTiers = (schema: Schema | undefined): boolean => {
  const items = schema?.items as Schema | undefined;
  const properties = items?.properties as Readonly<Record<string, Schema>> | undefined;
  return properties?.weight !== undefined && properties.between !== undefined;
};

const inList = (tiers: readonly RawTier[], key: string, check: Check, unit: UnitName, path: Path): Gap[] =>
  tiers.flatMap((tier, index) =>
    (['low', 'high'] as const).flatMap((side): Gap[] => {
      const limit = limitOf(tier, side, unit);
      if (!limit) return [];
      const heavier = tiers
        .filter((one) => weightOrder[one.weight] < weightOrder[tier.weight] && servesAll(one, tier, check))
        .flatMap((one) => {
          const other = limitOf(one, side, unit);
          const comesFirst =
            other && (side === 'low' ? limit.value <= other.value : limit.value >= other.value);
          return other && comesFirst ? [{ weight: one.weight, text: other.text }] : [];
        })[0];
      return heavier
        ? [
            {
              kind: 'never-reported',
              path: [...path, key, index, ...limit.path],
              check: check.id,
              weight: tier.weight,
              side,
              limit: limit.text,
              heavier: heavier.weight,
              heavierLimit: heavier.text,
            },
          ]
        : [];
    }),
  );

/**
 * Limits that can never be reported: whatever is beyond them is beyond those of a heavier tier, too, which comes first.
 *
 * @param path of the check in its pack
 */
export const neverReported = (check: Check, path: Path): Gap[] => {
  const { unit } = check;
  const { properties } = kindOf(check);
  if (unit === null) return [];
  return Object.entries(rawOf(check))
    .filter(([key]) => isTiers(properties[key]))
    .flatMap(([key, tiers]) => inList(tiers as readonly RawTier[], key, check, unit, path));
};
