import type { Job, Reading } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Channel } from '../pack.ts';
import { type Doubt, doubtOf } from '../readings/doubt.ts';
import type { Estimate } from '../readings/estimate.ts';
import { formatNumber } from '../readings/format-number.ts';

/** A reading that cannot be, and where it stands. */
export interface Unbelievable extends Doubt {
  /** The snapshot's id. */
  readonly snapshot: string;
}

/** How far two readings of one thing may differ and still say the same, as a share of the larger. Judgement. */
const alike = 0.1;

const agree = (one: number, other: number): boolean =>
  Math.abs(one - other) <= alike * Math.max(Math.abs(one), Math.abs(other));

/**
 * Readings that cannot be, each with what was probably meant: a decimal point or a unit slipped. Where another reading of
 * the same state says the same, a value is believed: it is the vehicle, and not a slip.
 *
 * @param taken what each reading comes to, in its channel's unit
 */
export const unbelievableReadings = (
  { snapshots }: Job,
  channels: ReadonlyMap<string, Channel>,
  taken: ReadonlyMap<Reading, { readonly estimate: Estimate }>,
): Map<Reading, Unbelievable> => {
  const doubted = snapshots.flatMap(({ id, state, readings }) =>
    [...readings].flatMap(([key, reading]) => {
      const unit = channels.get(parseKey(key).base)?.unit;
      const value = taken.get(reading)?.estimate.value;
      if (unit === undefined || value === undefined) return [];
      const doubt = doubtOf(formatNumber(value, 6), unit, key, unit);
      return doubt === null
        ? []
        : [{ of: `${state} ${key}`, reading, value, doubt: { ...doubt, snapshot: id } }];
    }),
  );
  const isAlone = (one: (typeof doubted)[number]): boolean =>
    !doubted.some((other) => other !== one && other.of === one.of && agree(one.value, other.value));
  return new Map(doubted.filter(isAlone).map(({ reading, doubt }) => [reading, doubt]));
};
