import type { Snapshot, State, Vehicle } from './job.ts';
import type { Asked, Channel, FittingSnapshots, Scene, Shape } from './pack.ts';
import { isWork } from './steps/staleness.ts';

/** Shapes by what they are made of; kept with the channels, which live as long as their packs. */
const known = new WeakMap<ReadonlyMap<string, Channel>, Map<string, Shape>>();

/** The shape of a vehicle: one object for all that are alike, so that what hangs on it is worked out once. */
const shapeOf = ({ layout, fitted }: Vehicle, channels: ReadonlyMap<string, Channel>): Shape => {
  let shapes = known.get(channels);
  if (shapes === undefined) {
    shapes = new Map();
    known.set(channels, shapes);
  }
  const name = `${layout} ${fitted.join(' ')}`;
  let shape = shapes.get(name);
  if (shape === undefined) {
    shape = { layout, fitted: [...fitted], channels, byKey: new Map() };
    shapes.set(name, shape);
  }
  return shape;
};

/** What checks may look at in a job; what is a scene already stays one. */
export const sceneOf = (asked: Asked): Scene => {
  if ('shape' in asked) return asked as Scene;
  const { job, channels, superseded = true, steps = [] } = asked;
  return {
    job,
    channels,
    superseded,
    steps,
    shape: shapeOf(job.vehicle, channels),
    works: job.log.filter(isWork),
    taken: new Map(),
    found: new Map(),
    read: keysRead(job.snapshots),
  };
};

const keysRead = (snapshots: readonly Snapshot[]): ReadonlySet<string> => {
  const keys = new Set<string>();
  for (const { readings } of snapshots) for (const key of readings.keys()) keys.add(key);
  return keys;
};

/** Whether any snapshot has a reading of any of these keys. */
export const wasRead = ({ read }: Scene, keys: readonly string[]): boolean => {
  for (const key of keys) if (read.has(key)) return true;
  return false;
};

/** The snapshots of some states; one set of states stands for all that are alike. */
export const snapshotsIn = ({ job, found }: Scene, states: ReadonlySet<State>): FittingSnapshots => {
  const before = found.get(states);
  if (before !== undefined) return before;
  const fitting = job.snapshots.filter(({ state }) => states.has(state));
  const made = { fitting, each: fitting.map((snapshot) => [snapshot]) };
  found.set(states, made);
  return made;
};
