import type { Missing } from '../../finding.ts';
import { trendOf } from '../../readings/trend.ts';
import type { CheckContext } from '../check-context.ts';
import { type Kind, type KindScope, quantitySchema, type Schema } from '../kind.ts';
import type { Occasion } from '../outcome.ts';
import { readQuantity } from '../parameters.ts';
import type { RateUnits } from './rate-units.ts';
import { type Role, takePoints } from './runs.ts';
import { inUnit, trendPoints } from './trend-outcome.ts';

/** What the slowest filling depends on: the tank, or how fast the vehicle filled it before. */
export interface FillParts {
  /** The volume for which the pack gives its limit, l. */
  readonly forVolume: number;
  /** The part of an earlier run that is no finding. */
  readonly ofEarlier: number;
}

export const fillProperties: Kind['properties'] = {
  /** The volume of the tank for which the limit is meant: twice the tank takes twice the time. */
  'for-volume': quantitySchema,
  /** Where no volume is stated: the share of the vehicle's own earlier run. */
  'of-earlier': quantitySchema,
} satisfies Readonly<Record<string, Schema>>;

export const readFillParts = (raw: Readonly<Record<string, unknown>>, scope: KindScope): FillParts | null =>
  raw['for-volume'] === undefined
    ? null
    : {
        forVolume: readQuantity(raw['for-volume'], 'l', ['for-volume'], scope),
        ofEarlier: readQuantity(raw['of-earlier'] ?? '70 %', '%', ['of-earlier'], scope) / 100,
      };

/** A snapshot's part in a run: with the compressor on it is a point, without it the run ends. */
export const runningRole =
  (key: string) =>
  ({ conditions, readings }: Occasion[number]): Role => {
    if (conditions.words.compressor !== 'on') return 'breaks';
    return readings.has(key) ? 'point' : 'passes';
  };

/** How fast the pressure rose in a run; null where it was not read often enough. */
export const gainOf = (
  run: Occasion,
  key: string,
  units: RateUnits,
  context: CheckContext,
  check: Parameters<typeof takePoints>[3],
): number | null => {
  const taken = takePoints(run, key, context, check, 2, null);
  if (!taken.ok) return null;
  return trendOf(
    trendPoints(taken.points, 'min', ({ estimate }) => {
      const pressure = inUnit(estimate, units.of);
      return { value: pressure.value, terms: [{ estimate: pressure, sensitivity: 1 }] };
    }),
  ).slope;
};

/**
 * By how much a limit for the pack's volume is to be multiplied for this vehicle; else the least gain by its own first
 * run, which is none of this one.
 *
 * @param earlier gain of the vehicle's first run, or null where this is the first
 */
export const leastGain = (
  { forVolume, ofEarlier }: FillParts,
  limit: number,
  earlier: number | null,
  { job }: CheckContext,
):
  | { readonly ok: true; readonly gain: number; readonly by: 'tank' | 'earlier' }
  | { ok: false; missing: Missing } => {
  const { tankVolume } = job.vehicle.air;
  if (tankVolume !== null && tankVolume > 0)
    return { ok: true, gain: (limit * forVolume) / tankVolume, by: 'tank' };
  if (earlier !== null && earlier > 0) return { ok: true, gain: ofEarlier * earlier, by: 'earlier' };
  return { ok: false, missing: { why: 'vehicle-not-stated', what: 'air.tank-volume' } };
};
