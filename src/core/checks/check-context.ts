import type { Job, LogEntry, Reading, Snapshot } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Channel } from '../pack.ts';
import { type Estimate, estimate } from '../readings/estimate.ts';
import { forChannel, instrumentNamed } from '../readings/instruments.ts';
import type { TypedValue } from '../readings/parse-quantity.ts';
import { isWork } from '../steps/staleness.ts';
import type { WorksheetStep } from '../worksheet-parts.ts';
import { type Unbelievable, unbelievableReadings } from './unbelievable.ts';

/** A reading as one value. */
export interface Taken {
  readonly ok: true;
  readonly estimate: Estimate;
  /** How many repeats it rests on. */
  readonly count: number;
}

/** An entry of the log, and the title of the hold point that was not clear when it was written. */
export interface EntryAgainst {
  readonly entry: LogEntry;
  readonly point: string;
}

/** All that a check may look at: made once for all checks of a job. */
export interface CheckContext {
  readonly job: Job;
  readonly channels: ReadonlyMap<string, Channel>;
  /** False where judgements that a newer one of their state supersedes are left out. */
  readonly superseded: boolean;
  /** Only for checks that come after the steps; empty for the others. */
  readonly steps: readonly WorksheetStep[];
  /** Entries of the log that their hold point did not allow, and that do not say why they were written all the same. */
  readonly against: readonly EntryAgainst[];
  /** The entries of the log that change the vehicle. */
  readonly works: readonly LogEntry[];
  /** What each reading comes to that has values or jumps; several checks look at one. */
  readonly taken: ReadonlyMap<Reading, Taken>;
  /** Readings that cannot be, with what was probably meant: no check judges by them. */
  readonly unbelievable: ReadonlyMap<Reading, Unbelievable>;
  /** Keys of all readings of all snapshots. */
  readonly read: ReadonlySet<string>;
}

/** The estimate of values typed for a channel, through the instrument that read them. */
export const estimateIn = (
  { unit, accuracy, by: usual }: Channel,
  key: string,
  values: readonly TypedValue[],
  by: string,
  instruments: Job['instruments'],
): Estimate => {
  const instrument = instrumentNamed(instruments, by);
  return estimate(values, unit, by === usual ? forChannel(instrument, accuracy) : instrument, key);
};

/** A reading of values as it is; one that jumps as its middle, with half its span as scatter. */
const takeOne = (
  reading: Exclude<Reading, { kind: 'untaken' }>,
  channel: Channel,
  key: string,
  instruments: Job['instruments'],
): Taken => {
  if (reading.kind === 'values') {
    const { values, by } = reading;
    return { ok: true, estimate: estimateIn(channel, key, values, by, instruments), count: values.length };
  }
  const { low, high, by } = reading;
  const half = Math.abs(high.value - low.value) / 2;
  const ends = estimateIn(channel, key, [low, high], by, instruments);
  return { ok: true, estimate: { ...ends, scatter: half, scatterFrom: 'repeats' }, count: 2 };
};

const takenOf = (
  { snapshots, instruments }: Job,
  channels: CheckContext['channels'],
): Map<Reading, Taken> => {
  const taken = new Map<Reading, Taken>();
  for (const { readings } of snapshots) {
    for (const [key, reading] of readings) {
      const channel = channels.get(parseKey(key).base);
      if (reading.kind === 'untaken' || channel === undefined) continue;
      taken.set(reading, takeOne(reading, channel, key, instruments));
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
): CheckContext => {
  const taken = takenOf(job, channels);
  return {
    job,
    channels,
    superseded,
    steps: [],
    against: [],
    works: job.log.filter(isWork),
    taken,
    unbelievable: unbelievableReadings(job, channels, taken),
    read: keysRead(job.snapshots),
  };
};

/** Whether any snapshot has a reading of any of these keys. */
export const wasRead = ({ read }: CheckContext, keys: readonly string[]): boolean => {
  for (const key of keys) if (read.has(key)) return true;
  return false;
};
