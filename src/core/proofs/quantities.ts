import { quantitySchema, type Schema, toldSchema, unitlessSchema } from '../checks/kind.ts';
import { kindOf } from '../checks/kinds/index.ts';
import type { Path } from '../flaw.ts';
import type { Check } from '../pack.ts';

/** What a quantity of a check stands beside, which says how far it may be moved. */
export type Beside =
  | { readonly kind: 'alone' }
  /** One end of a band: `between: [low, high]`. */
  | { readonly kind: 'band'; readonly side: 'low' | 'high'; readonly other: string }
  /** One cell of a table of pairs: its whole column, and whether the column orders the table. */
  | {
      readonly kind: 'column';
      readonly cells: readonly string[];
      readonly row: number;
      readonly orders: boolean;
    };

/** A limit, a point of a table or another figure that a check judges by, as its pack has it. */
export interface Quantity {
  /** From the check. */
  readonly path: Path;
  /** As typed: `0.25 V`. */
  readonly text: string;
  /** False for a figure that has no unit, such as a specific gravity. */
  readonly hasUnit: boolean;
  readonly beside: Beside;
}

const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value);
const isMap = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !isList(value);

const isQuantity = (schema: Schema | undefined): boolean =>
  schema === quantitySchema || schema === unitlessSchema;

/** The schemas of the items of a list: one for all, or one each. */
const itemSchema = ({ items }: Schema, index: number): Schema | undefined =>
  (isList(items) ? items[index] : items) as Schema | undefined;

const placeIn = (list: readonly unknown[], index: number, table: TableRow | null): Beside => {
  if (table)
    return {
      kind: 'column',
      cells: table.rows.map((row) => String((row as unknown[])[index])),
      row: table.row,
      orders: index === 0,
    };
  if (list.length !== 2) return { kind: 'alone' };
  return { kind: 'band', side: index === 0 ? 'low' : 'high', other: String(list[1 - index]) };
};

interface TableRow {
  readonly rows: readonly unknown[];
  readonly row: number;
}

const isTable = (value: readonly unknown[]): boolean => value.length > 0 && value.every(isList);

/** Walks a value beside its schema. */
const walk = (
  schema: Schema,
  value: unknown,
  path: Path,
  beside: Beside,
  table: TableRow | null,
): Quantity[] => {
  if (schema === toldSchema || value === undefined) return [];
  if (isQuantity(schema)) return [{ path, text: String(value), hasUnit: schema === quantitySchema, beside }];
  if (isList(value))
    return value.flatMap((item, index) => {
      const own = itemSchema(schema, index);
      if (!own) return [];
      const row = isTable(value) ? { rows: value, row: index } : null;
      return walk(own, item, [...path, index], placeIn(value, index, table), row);
    });
  if (!isMap(value)) return [];
  const properties = (schema.properties ?? {}) as Readonly<Record<string, Schema>>;
  const others = isMap(schema.additionalProperties) ? schema.additionalProperties : undefined;
  return Object.entries(value).flatMap(([key, item]) => {
    const own = properties[key] ?? others;
    return own ? walk(own, item, [...path, key], { kind: 'alone' }, null) : [];
  });
};

/** A check's own map in its pack, without its words. */
export const rawOf = ({ definition }: Check): Readonly<Record<string, unknown>> =>
  JSON.parse(definition) as Readonly<Record<string, unknown>>;

/** Every quantity by which a check judges, in the order of its definition. */
export const quantitiesOf = (check: Check): Quantity[] => {
  const { properties } = kindOf(check);
  return walk({ properties }, rawOf(check), [], { kind: 'alone' }, null);
};
