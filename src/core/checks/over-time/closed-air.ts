import type { Snapshot } from '../../job.ts';
import { atTemperature, kelvin } from '../../readings/air.ts';
import type { Estimate } from '../../readings/estimate.ts';
import { mean, rectangular } from '../../readings/statistics.ts';
import { type Trend, type TrendPoint, trendOf } from '../../readings/trend.ts';
import type { UnitName } from '../../readings/units.ts';
import { unseenDrift } from '../surrounding-air.ts';
import type { Point, Role } from './runs.ts';
import { inUnit, trendPoints } from './trend-outcome.ts';

/** Temperature of the standard atmosphere, °C: where none is stated, only its kelvins count, and they hardly differ. */
export const unstatedTemperature = 15;

/** Air is shut in only where the snapshot says so; any other state in which it does not may have spent some. */
export const closedRole =
  (fitting: readonly Snapshot[], key: string) =>
  (snapshot: Snapshot): Role => {
    const { words } = snapshot.conditions;
    if (words['air-system'] === 'open' || words.compressor === 'on') return 'breaks';
    const closed = words['air-system'] === 'closed';
    if (!fitting.includes(snapshot)) return closed ? 'passes' : 'breaks';
    return closed && snapshot.readings.has(key) ? 'point' : 'passes';
  };

export interface Air {
  readonly local: readonly Estimate[];
  /** Null unless every point states it. */
  readonly temperatures: readonly Estimate[] | null;
}

/** The absolute pressures as they were read. */
export const uncorrected = (points: readonly Point[], unit: UnitName, { local }: Air): TrendPoint[] =>
  trendPoints(points, 'h', ({ estimate }, index) => {
    const both = [estimate, local[index] ?? estimate].map((one) => inUnit(one, unit));
    return {
      value: both.reduce((sum, { value }) => sum + value, 0),
      terms: both.map((one) => ({ estimate: one, sensitivity: 1 })),
    };
  });

/** The trend of the absolute pressures, all brought to the temperature of the first. */
export const corrected = (read: readonly TrendPoint[], { temperatures }: Air): Trend => {
  if (!temperatures) {
    const perHour = unseenDrift(read.at(-1)?.time ?? 0) / kelvin(unstatedTemperature);
    const standard = rectangular(perHour * mean(read.map(({ value }) => value)));
    return trendOf(read, { standard, from: 'temperature' });
  }
  const reference = temperatures[0]?.value ?? unstatedTemperature;
  return trendOf(
    read.map((point, index) => {
      const air = temperatures[index];
      if (!air) return point;
      const scale = atTemperature(1, air.value, reference);
      const value = point.value * scale;
      const terms = point.terms.map((term) => ({ ...term, sensitivity: term.sensitivity * scale }));
      // p·T₀/T falls as T rises; T₀ is a figure to refer to, and has no uncertainty.
      return {
        ...point,
        value,
        terms: [...terms, { estimate: air, sensitivity: -value / kelvin(air.value) }],
      };
    }),
  );
};
