import type { Conditions, Job, Reading, Snapshot } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Channel } from '../pack.ts';
import type { TypedValue } from '../readings/parse-quantity.ts';
import { convert, type UnitName } from '../readings/units.ts';

/** One quantity of a proof's job that may be typed otherwise. */
export interface Variable {
  /** `position.LF`, `rested` */
  readonly name: string;
  /** Empty where the job has only one snapshot. */
  readonly snapshot: string;
  readonly value: number;
  readonly unit: UnitName;
  readonly resolution: number;
  /** The same job with another value here. */
  readonly jobWith: (typed: TypedValue) => Job;
}

const withSnapshot = (job: Job, place: number, changed: Snapshot): Job => ({
  ...job,
  snapshots: job.snapshots.map((one, index) => (index === place ? changed : one)),
});

/** A reading with its one value changed, or the upper end of one that jumps. */
const typedIn = (reading: Reading): TypedValue | null => {
  if (reading.kind === 'span') return reading.high;
  return reading.kind === 'values' && reading.values.length === 1 ? (reading.values[0] ?? null) : null;
};

const changed = (reading: Reading, typed: TypedValue): Reading => {
  if (reading.kind === 'span') return { ...reading, high: typed };
  return reading.kind === 'values' ? { ...reading, values: [typed] } : reading;
};

/** How conditions that are quantities are kept, and how a proof best types them. */
const conditionUnits = {
  air: ['°C', '°C'],
  rested: ['h', 'h'],
  asleep: ['h', 'min'],
} as const satisfies Partial<Record<keyof Conditions, readonly [kept: UnitName, typed: UnitName]>>;

/** Every quantity of a job that a proof could state otherwise, those of the newest snapshot first. */
export const variablesOf = (job: Job, channels: ReadonlyMap<string, Channel>): Variable[] => {
  const several = job.snapshots.length > 1;
  const found = job.snapshots.map((snapshot, place): Variable[] => {
    const { conditions, readings, id } = snapshot;
    const at = several ? id : '';
    const byReading = [...readings].flatMap(([name, reading]): Variable[] => {
      const typed = typedIn(reading);
      const channel = channels.get(parseKey(name).base);
      if (!typed || !channel) return [];
      const jobWith = (other: TypedValue): Job =>
        withSnapshot(job, place, {
          ...snapshot,
          readings: new Map([...readings, [name, changed(reading, other)]]),
        });
      return [
        { name, snapshot: at, value: typed.value, unit: channel.unit, resolution: typed.resolution, jobWith },
      ];
    });
    const byCondition = Object.entries(conditionUnits).flatMap(([name, [kept, unit]]): Variable[] => {
      const typed = conditions[name as keyof typeof conditionUnits];
      if (!typed) return [];
      const into = (value: number): number => convert(value, unit, kept);
      const jobWith = (other: TypedValue): Job =>
        withSnapshot(job, place, {
          ...snapshot,
          conditions: { ...conditions, [name]: { ...other, value: into(other.value) } },
        });
      const value = convert(typed.value, kept, unit);
      return [{ name, snapshot: at, value, unit, resolution: typed.resolution, jobWith }];
    });
    return [...byReading, ...byCondition];
  });
  return found.reverse().flat();
};
