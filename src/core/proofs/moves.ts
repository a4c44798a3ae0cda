import { kindOf } from '../checks/kinds/index.ts';
import type { Path } from '../flaw.ts';
import type { Check, Pack } from '../pack.ts';
import { convert, convertSpan, findUnit, quantityOf, type UnitName } from '../readings/units.ts';
import { type Quantity, quantitiesOf, rawOf } from './quantities.ts';

/** By which shares every quantity is moved, up and down. */
export const moveShares = [0.02, 0.1] as const;

/** A check with one of its quantities moved. */
export interface Move {
  readonly quantity: Quantity;
  readonly share: (typeof moveShares)[number];
  readonly way: 'up' | 'down';
  /** The moved quantity as it would be typed. */
  readonly to: string;
  readonly moved: Check;
}

/** A typed quantity as a number in its own unit. */
interface Typed {
  readonly value: number;
  /** As typed, `psi/min`; empty where there is none. */
  readonly tail: string;
  readonly unit: UnitName | null;
  /** The unit of a number without one. */
  readonly usual: UnitName | null;
}

/** @param usual the unit of a number without one */
const typedOf = (text: string, usual: UnitName | null): Typed | null => {
  const match = /^([+-]?\d+(?:\.\d+)?)\s*(.*)$/u.exec(text.trim().replace(/^\u2212/u, '-'));
  if (!match) return null;
  const [, digits = '', tail = ''] = match;
  return { value: Number(digits), tail, unit: tail === '' ? usual : findUnit(tail), usual };
};

/** Another quantity of the same band or column in the unit of this one. */
const inUnitOf = ({ unit, usual }: Typed, text: string): number | null => {
  const other = typedOf(text, usual);
  if (!other) return null;
  if (unit === null || other.unit === null || quantityOf(unit) !== quantityOf(other.unit)) return other.value;
  return convert(other.value, other.unit, unit);
};

/** A lone temperature is moved as one of this many °C where it is nearer to 0 °C. */
const leastCelsius = 5;

const isTemperature = ({ unit }: Typed): boolean => unit !== null && quantityOf(unit) === 'temperature';

/**
 * What the whole of a move is, in the quantity's own unit: its own size, and where that means nothing the width of its
 * band or column. It means nothing for a limit at 0, for the ends of a band around 0, for a temperature (whose zero is
 * the scale's) and for points of a table.
 */
const wholeOf = (quantity: Quantity, typed: Typed, others: readonly Quantity[]): number => {
  const { beside } = quantity;
  const own = Math.abs(typed.value);
  const cells = beside.kind === 'column' ? beside.cells : beside.kind === 'band' ? [beside.other] : [];
  const values = [typed.value, ...cells.flatMap((text) => inUnitOf(typed, text) ?? [])];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const spans = beside.kind === 'column' || isTemperature(typed) || (low <= 0 && high >= 0);
  if (spans && high > low) return high - low;
  const { unit } = typed;
  if (unit !== null && isTemperature(typed))
    return convertSpan(Math.max(leastCelsius, Math.abs(convert(typed.value, unit, '°C'))), '°C', unit);
  if (own > 0) return own;
  const nearby = others
    .map(({ text }) => typedOf(text, typed.usual))
    .flatMap((one) => (one && one.tail === typed.tail ? [Math.abs(one.value)] : []));
  return Math.max(...nearby) || 1;
};

/** The part of what lies between it and its neighbour that a quantity may be moved by. */
const upTo = 0.9;

/** The neighbours that a quantity must not be moved past: the other end of its band, the next points of its table. */
const neighboursOf = ({ beside }: Quantity, typed: Typed): number[] => {
  if (beside.kind === 'band') return [beside.other].flatMap((text) => inUnitOf(typed, text) ?? []);
  if (beside.kind !== 'column' || !beside.orders) return [];
  return beside.cells.flatMap((text, row) => (row === beside.row ? [] : (inUnitOf(typed, text) ?? [])));
};

/** Keeps the ends of a band in order, and the points of a table apart. */
const kept = (
  wanted: number,
  quantity: Quantity,
  { value }: Typed,
  neighbours: readonly number[],
): number => {
  const { beside } = quantity;
  // Two ends at one place are still a lower and an upper one.
  const together = neighbours.includes(value) && beside.kind === 'band';
  if (together && (beside.side === 'low') === wanted > value) return value;
  const below = Math.max(...neighbours.filter((one) => one < value));
  const above = Math.min(...neighbours.filter((one) => one > value));
  // Where there is none on a side the bound is infinite.
  return Math.min(value + upTo * (above - value), Math.max(value - upTo * (value - below), wanted));
};

/** A number with as many digits as a move of this size needs, never as an exponent. */
const digitsOf = (value: number, step: number): string => {
  const places = Math.min(20, Math.max(0, 3 - Math.floor(Math.log10(step))));
  const text = value.toFixed(places);
  return text.includes('.') ? text.replace(/\.?0+$/u, '') : text;
};

/** Numbers of more digits before the point are refused as readings. */
const isReadable = (digits: string): boolean => /^-?\d{1,15}(?:\.|$)/u.test(digits);

/** A copy of plain data with another value at a path. */
const withAt = (data: unknown, [head, ...rest]: Path, value: unknown): unknown => {
  if (head === undefined) return value;
  if (Array.isArray(data))
    return data.map((item, index) => (index === head ? withAt(item, rest, value) : item));
  const map = data as Readonly<Record<string, unknown>>;
  return { ...map, [head]: withAt(map[head], rest, value) };
};

/** A check as its kind reads it with another value at a path; what it cannot read is a bug of the move. */
const readWith = (pack: Pack, check: Check, path: Path, text: string): Check => {
  const parameters = kindOf(check).read(
    withAt(rawOf(check), path, text) as Readonly<Record<string, unknown>>,
    {
      channels: new Map(pack.channels.map((channel) => [channel.id, channel])),
      checks: pack.checks.map(({ id }) => id.slice(pack.id.length + 1)),
      basis: check.basis,
      says: check.says,
      flaw: ({ message }) => {
        throw new Error(`${check.id} with ${path.join('.')} at ${text}: ${message}`);
      },
    },
  );
  return { ...check, parameters };
};

/** A check with each of its quantities moved by each share, up and down; one that cannot be moved so far less far. */
export const movesOf = (pack: Pack, check: Check): Move[] => {
  const quantities = quantitiesOf(check);
  return quantities.flatMap((quantity) => {
    const typed = typedOf(quantity.text, check.unit);
    if (!typed) return [];
    const whole = wholeOf(quantity, typed, quantities);
    const neighbours = neighboursOf(quantity, typed);
    return moveShares.flatMap((share) =>
      (['down', 'up'] as const).flatMap((way): Move[] => {
        const step = way === 'up' ? share * whole : -share * whole;
        const wanted = kept(typed.value + step, quantity, typed, neighbours);
        if (wanted === typed.value) return [];
        const digits = digitsOf(wanted, Math.abs(wanted - typed.value));
        if (!isReadable(digits)) return [];
        const to = typed.tail === '' ? digits : `${digits} ${typed.tail}`;
        return [{ quantity, share, way, to, moved: readWith(pack, check, quantity.path, to) }];
      }),
    );
  });
};
