import { chanceAbove, chanceBelow, type Uncertain } from './thirds.ts';

/** What a compressor does with its current. */
export const effortWords = ['normal', 'weak', 'free', 'blocked', 'none'] as const;
export type EffortWord = (typeof effortWords)[number];
export type EffortWeights = Readonly<Record<EffortWord, number>>;

export interface Run {
  /** Pressure gained with time. */
  readonly gain: Uncertain;
  /** A */
  readonly current: Uncertain;
  /** What somebody found at the exhaust port while the compressor ran; null where nobody looked. */
  readonly port: 'air-escapes' | 'quiet' | null;
}

export interface EffortLimits {
  /** The slowest gain that is no finding, in the unit of the gain. */
  readonly gain: number;
  /** The part of that gain under which the tank hardly rises at all. */
  readonly stalled: number;
  /** Current of the data plate, A; null where it is not stated, so that only no current at all is judged. */
  readonly rated: number | null;
  /** Parts of the rated current: clearly low below the first, high above the second, none below the third. */
  readonly low: number;
  readonly high: number;
  /** A */
  readonly none: number;
}

/** How sure the exhaust port makes it: air there is an open exhaust valve, none there a worn compressor. From memory. */
const portTells = 0.95;

/**
 * The chance of each word. A compressor without current runs not at all; one that fills as it should is normal; a slow
 * one is weak on normal or low current, free where the current is clearly low and air escapes at the port, and blocked
 * where the current is high and the tank hardly rises.
 */
export const effortWeights = ({ gain, current, port }: Run, limits: EffortLimits): EffortWeights => {
  const none = chanceBelow(current, limits.none);
  const slow = (1 - none) * chanceBelow(gain, limits.gain);
  const stalls = chanceBelow(gain, limits.stalled * limits.gain);
  const { rated } = limits;
  const low = rated === null ? 0 : chanceBelow(current, limits.low * rated);
  const high = rated === null ? 0 : chanceAbove(current, limits.high * rated);
  const free = port === null ? 0.5 : port === 'air-escapes' ? portTells : 1 - portTells;
  return {
    normal: 1 - none - slow,
    weak: slow * (low * (1 - free) + high * (1 - stalls) + Math.max(0, 1 - low - high)),
    free: slow * low * free,
    blocked: slow * high * stalls,
    none,
  };
};
