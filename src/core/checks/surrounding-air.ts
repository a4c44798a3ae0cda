import type { Snapshot } from '../job.ts';
import { kelvin, seaLevel, standardPressure } from '../readings/air.ts';
import { type Estimate, estimate } from '../readings/estimate.ts';
import { instrumentNamed } from '../readings/instruments.ts';
import type { CheckContext } from './check-context.ts';

/**
 * Pressure of the air around a vehicle at each snapshot of a run, kPa. Each snapshot's own barometer where all of
 * them state one, so that the weather's change counts; else one pressure for all (the first barometer, else that of
 * the first altitude, else sea level), since a pressure stated once must not look like a change.
 */
export const localPressures = (
  snapshots: readonly Snapshot[],
  context: CheckContext,
): readonly Estimate[] => {
  const barometers = snapshots.flatMap(({ conditions }) => conditions.barometer ?? []);
  const read = (typed: (typeof barometers)[number]): Estimate =>
    estimate([typed], 'kPa', instrumentNamed(context.job.instruments, 'barometer'));
  if (barometers.length === snapshots.length) return barometers.map(read);
  const [barometer] = barometers;
  const altitude = snapshots.map(({ conditions }) => conditions.altitude).find((typed) => typed !== null);
  const value = barometer?.value ?? (altitude ? standardPressure(altitude.value) : seaLevel);
  const constant = {
    value,
    unit: 'kPa',
    scatter: 0,
    scatterFrom: 'resolution',
    instrument: '',
    offset: 0,
    offsetOf: null,
    gain: 0,
  } as const;
  return snapshots.map(() => constant);
};

/** The air's temperature at each snapshot of a run, °C; null unless all of them state it. */
export const airTemperatures = (
  snapshots: readonly Snapshot[],
  context: CheckContext,
): readonly Estimate[] | null => {
  const stated = snapshots.flatMap(({ conditions }) => conditions.air ?? []);
  if (stated.length < snapshots.length || stated.some(({ value }) => kelvin(value) <= 0)) return null;
  return stated.map((air) => estimate([air], '°C', instrumentNamed(context.job.instruments, 'thermometer')));
};

/**
 * How far the air's temperature may drift unseen: 3 °C an hour, and 15 °C in all. From memory: a clear morning or
 * evening, and the day's whole swing.
 *
 * @param hours length of the run, above 0
 * @returns half-width in °C an hour
 */
export const unseenDrift = (hours: number): number => Math.min(3, 15 / hours);
