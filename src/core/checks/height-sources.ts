import type { Corner } from '../corner.ts';
import type { Missing } from '../finding.ts';
import type { Snapshot } from '../job.ts';
import type { Channel, Check } from '../pack.ts';
import type { Term } from '../readings/estimate.ts';
import { type HeightBase, type HeightTable, sensorHeight } from '../readings/heights.ts';
import type { UnitName } from '../readings/units.ts';
import type { CheckContext, Taken } from './check-context.ts';
import type { KindScope } from './kind.ts';
import { readChannel } from './parameters.ts';
import { take } from './take.ts';

/** A corner's height in mm, however it came about, with what its uncertainty rests on. */
export interface CornerHeight {
  readonly height: number;
  readonly term: Term;
  readonly taken: Taken;
  readonly extrapolated: boolean;
}

export type HeightTaken =
  | { readonly ok: true; readonly value: CornerHeight }
  | { readonly ok: false; readonly missing: Missing };

const refused = (missing: Missing): HeightTaken => ({ ok: false, missing });

/** The vehicle's measured pairs of a corner from `from`, or why there are none. */
export const tableFrom = (corner: Corner, from: HeightBase, { job }: CheckContext): HeightTable | Missing => {
  const table = job.vehicle.heights[corner];
  const what = `heights.${corner}`;
  if (!table) return { why: 'vehicle-not-stated', what };
  return table.from === from ? table : { why: 'vehicle-differs', what, wants: from, is: table.from };
};

/** The height that a corner's signal stands for by the vehicle's own measured pairs, from `from`; or why there is none. */
export const heightBySensor = (
  corner: Corner,
  channel: string,
  from: HeightBase,
  snapshot: Snapshot,
  context: CheckContext,
  check: Check,
): HeightTaken => {
  const table = tableFrom(corner, from, context);
  if ('why' in table) return refused(table);
  const taken = take(snapshot, `${channel}.${corner}`, context, check);
  if (!taken.ok) return taken;
  return { ok: true, value: { ...sensorHeight(taken.estimate, table), taken } };
};

/** Why a snapshot's tape heights are not known to be from `from`, or null: a tape says nothing of where it began. */
export const tapeBasisMissing = ({ conditions }: Snapshot, from: HeightBase): Missing | null => {
  const is = conditions.words['heights-from'];
  const wanted = { condition: 'heights-from', wants: from };
  if (is === undefined) return { why: 'condition-not-stated', ...wanted };
  return is === from ? null : { why: 'condition-differs', ...wanted, is };
};

/** The height by tape at a corner, on whatever basis it was taken. */
export const heightByTape = (
  corner: Corner,
  channel: string,
  snapshot: Snapshot,
  context: CheckContext,
  check: Check,
): HeightTaken => {
  const taken = take(snapshot, `${channel}.${corner}`, context, check);
  if (!taken.ok) return taken;
  const { estimate } = taken;
  const term: Term = { estimate, sensitivity: 1 };
  return { ok: true, value: { height: estimate.value, term, taken, extrapolated: false } };
};

/** Reads a parameter that names a channel of corners in a given unit, since heights are computed in volts and mm. */
export const readCornerChannel = (
  raw: unknown,
  key: string,
  unit: UnitName,
  scope: KindScope,
): Channel | null => {
  const channel = readChannel(raw, [key], scope);
  if (!channel) return null;
  if (channel.per !== 'corner') {
    const message = `${channel.id} is not read at each corner`;
    scope.flaw({ code: 'wrong-value', path: [key], message, hint: 'name a channel with per: corner' });
  } else if (channel.unit !== unit) {
    const message = `${channel.id} is in ${channel.unit}`;
    scope.flaw({ code: 'wrong-unit', path: [key], message, hint: `name a channel in ${unit}` });
  }
  return channel;
};
