import type { Job, LogEntry, Reading, Snapshot } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Channel } from '../pack.ts';
import { type Estimate, estimate } from '../readings/estimate.ts';
import { instrumentNamed } from '../readings/instruments.ts';
import { isWork } from '../steps/staleness.ts';
import type { WorksheetStep } from '../worksheet.ts';

/** A reading as one value. */
export interface Taken {
  readonly ok: true;
  readonly estimate: Estimate;
  /** How many repeats it rests on. */
  readonly count: number;
}

/** All that a check may look at: made once for all checks of a job. */
export interface CheckContext {
  readonly job: Job;
  readonly channels: ReadonlyMap<string, Channel>;
  /** False where judgements that a newer one of their state supersedes are left out. */
  readonly superseded: boolean;
  /** Only for checks that come after the steps; empty for the others. */
  readonly steps: readonly WorksheetStep[];
  /** The entries of the log that change the vehicle. */
  readonly works: readonly LogEntry[];
  /** What each reading of values comes to; several checks look at one. */
  readonly taken: ReadonlyMap<Reading, Taken>;
  /** Keys of all readings of all snapshots. */
  readonly read: ReadonlySet<string>;
}

const takenOf = (
  { snapshots, instruments }: Job,
  channels: CheckContext['channels'],
): Map<Reading, Taken> => {
  const taken = new Map<Reading, Taken>();
  for (const { readings } of snapshots) {
    for (const [key, reading] of readings) {
      const channel = channels.get(parseKey(key).base);
      if (reading.kind !== 'values' || channel === undefined) continue;
      const { values, by } = reading;
      const value = estimate(values, channel.unit, instrumentNamed(instruments, by));
      taken.set(reading, { ok: true, estimate: value, count: values.length });
    }
  }
  return taken;
};

const keysRead = (snapshots: readonly Snapshot[]): ReadonlySet<string> => {
  const keys = new Set<string>();
  for (const { readings } of snapshots) for (const key of readings.keys()) keys.add(key);
  return keys;
};

/**
 * Makes what checks look at.
 *
 * @param superseded false to leave out judgements that a newer one of their state supersedes
 */
export const checkContext = (
  job: Job,
  channels: ReadonlyMap<string, Channel>,
  superseded = true,
): CheckContext => ({
  job,
  channels,
  superseded,
  steps: [],
  works: job.log.filter(isWork),
  taken: takenOf(job, channels),
  read: keysRead(job.snapshots),
});

/** Whether any snapshot has a reading of any of these keys. */
export const wasRead = ({ read }: CheckContext, keys: readonly string[]): boolean => {
  for (const key of keys) if (read.has(key)) return true;
  return false;
};
