import { type Corner, isCorner } from '../corner.ts';
import type { Missing } from '../finding.ts';
import type { Snapshot } from '../job.ts';
import type { Check } from '../pack.ts';
import type { Term } from '../readings/estimate.ts';
import type { CheckContext } from './check-context.ts';
import { heightBySensor, tableFrom } from './height-sources.ts';
import { take } from './take.ts';

/** The channels that tell a corner's height beside the tape. */
export interface SignalChannels {
  /** Volts. */
  readonly signals: string;
  /** Heights as a scan tool shows them, mm; null where the pack has none. */
  readonly shown: string | null;
  /** A falling sensor counts as this less its volts, V. */
  readonly reference: number;
}

/** A signal as a height: upwards positive, in volts or millimetres. */
export interface UpwardSignal {
  readonly value: number;
  readonly term: Term;
}

/** Signals of some corners in one unit, for each sense that their sensors may have. */
export interface UpwardSignals {
  readonly unit: 'V' | 'mm';
  readonly channels: readonly string[];
  /** One set, or where a sense is not stated several that are equally likely. */
  readonly readings: readonly Readonly<Partial<Record<Corner, UpwardSignal>>>[];
}

export type SignalsTaken =
  | { readonly ok: true; readonly signals: UpwardSignals }
  | { readonly ok: false; readonly missing: Missing };

const has = (snapshot: Snapshot, channel: string, corners: readonly Corner[]): boolean =>
  corners.every((corner) => snapshot.readings.has(`${channel}.${corner}`));

const mapped = (corners: readonly Corner[], context: CheckContext): boolean =>
  corners.every((corner) => !('why' in tableFrom(corner, 'wheel-centre', context)));

const upward = (term: Term, sense: 1 | -1, reference: number): UpwardSignal =>
  sense === 1
    ? { value: term.estimate.value, term: { ...term, sensitivity: 1 } }
    : { value: reference - term.estimate.value, term: { ...term, sensitivity: -1 } };

const sensesOf = (corner: Corner, { job }: CheckContext): readonly (1 | -1)[] => {
  const sense = job.vehicle.sensorSense?.[corner];
  if (sense === undefined) return [1, -1];
  return sense === 'rising' ? [1] : [-1];
};

const heightsOf = (
  corners: readonly Corner[],
  take: (corner: Corner) => { ok: true; value: number; term: Term } | { ok: false; missing: Missing },
  channels: readonly string[],
): SignalsTaken => {
  const reading: Partial<Record<Corner, UpwardSignal>> = {};
  for (const corner of corners) {
    const one = take(corner);
    if (!one.ok) return one;
    reading[corner] = { value: one.value, term: one.term };
  }
  return { ok: true, signals: { unit: 'mm', channels, readings: [reading] } };
};

/**
 * The signals of some corners of a snapshot: as heights where the vehicle's measured pairs or the scan tool give
 * them, else in volts, turned by the sense of each sensor.
 */
export const upwardSignals = (
  snapshot: Snapshot,
  corners: readonly Corner[],
  { signals, shown, reference }: SignalChannels,
  context: CheckContext,
  check: Check,
): SignalsTaken => {
  const keys = (channel: string): string[] => corners.map((corner) => `${channel}.${corner}`);
  if (has(snapshot, signals, corners) && mapped(corners, context)) {
    const byMap = (corner: Corner) => {
      const taken = heightBySensor(corner, signals, 'wheel-centre', snapshot, context, check);
      return taken.ok ? { ok: true as const, value: taken.value.height, term: taken.value.term } : taken;
    };
    return heightsOf(corners, byMap, keys(signals));
  }
  if (shown !== null && has(snapshot, shown, corners)) {
    const byTool = (corner: Corner) => {
      const taken = take(snapshot, `${shown}.${corner}`, context, check);
      return taken.ok
        ? {
            ok: true as const,
            value: taken.estimate.value,
            term: { estimate: taken.estimate, sensitivity: 1 },
          }
        : taken;
    };
    return heightsOf(corners, byTool, keys(shown));
  }
  const is = context.job.vehicle.sensorSignal;
  if (is !== 'analogue')
    return { ok: false, missing: { why: 'vehicle-differs', what: 'sensor-signal', wants: 'analogue', is } };
  let readings: Partial<Record<Corner, UpwardSignal>>[] = [{}];
  for (const corner of corners) {
    const taken = take(snapshot, `${signals}.${corner}`, context, check);
    if (!taken.ok) return taken;
    const term = { estimate: taken.estimate, sensitivity: 1 };
    readings = readings.flatMap((reading) =>
      sensesOf(corner, context).map((sense) => ({ ...reading, [corner]: upward(term, sense, reference) })),
    );
  }
  return { ok: true, signals: { unit: 'V', channels: keys(signals), readings } };
};

/** Whether the job leaves open which way the sensor of any of these corners goes. */
export const senseOpen = (corners: readonly Corner[], { job }: CheckContext): boolean =>
  corners.some((corner) => job.vehicle.sensorSense?.[corner] === undefined);

/** A subject's name as a corner; any other is a bug. */
export const cornerNamed = (name: string): Corner => {
  if (!isCorner(name)) throw new Error(`${name} is no corner`);
  return name;
};
