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

/**
 * Readings that cannot be, each with what was probably meant: a decimal point or a unit slipped. Read a second time and
 * still so, a value is believed: it is the vehicle, and not a slip.
 *
 * @param taken what each reading comes to, in its channel's unit
 */
export const unbelievableReadings = (
  { snapshots }: Job,
  channels: ReadonlyMap<string, Channel>,
  taken: ReadonlyMap<Reading, { readonly estimate: Estimate }>,
): Map<Reading, Unbelievable> => {
  const byKey = new Map<string, [Reading, Unbelievable][]>();
  for (const { id, readings } of snapshots) {
    for (const [key, reading] of readings) {
      const unit = channels.get(parseKey(key).base)?.unit;
      const value = taken.get(reading)?.estimate.value;
      if (unit === undefined || value === undefined) continue;
      const doubt = doubtOf(formatNumber(value, 6), unit, key, unit);
      if (doubt !== null) byKey.set(key, [...(byKey.get(key) ?? []), [reading, { ...doubt, snapshot: id }]]);
    }
  }
  return new Map([...byKey.values()].filter(({ length }) => length === 1).flat());
};
