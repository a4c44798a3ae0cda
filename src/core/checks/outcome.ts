import type { Missing, Remark } from '../finding.ts';
import type { Snapshot, Weight } from '../job.ts';
import type { Tier } from '../pack.ts';
import type { Spread } from '../readings/estimate.ts';
import type { TrendSettle } from '../readings/settle-trend.ts';
import type { UnitName } from '../readings/units.ts';
import type { Limits } from '../readings/verdict.ts';

/** The snapshots that one judgement rests on, oldest first; most checks look at one. */
export type Occasion = readonly Snapshot[];

export interface Refused {
  readonly taken: false;
  readonly missing: Missing;
}

/** A quantity to hold against limits. */
export interface Quantity {
  readonly taken: true;
  readonly value: number;
  readonly unit: UnitName;
  readonly spread: Spread;
  /** Coverage factor; 2 unless few points were fitted. */
  readonly factor?: number;
  readonly scatterFrom: 'resolution' | 'repeats';
  /** How many repeats the value rests on. */
  readonly count: number;
  readonly tiers: readonly Tier[];
  readonly remarks?: readonly Remark[];
  /** Never heavier than this. */
  readonly cap?: Weight;
  /** What would settle it against these limits, where that is not the reading itself. */
  readonly settle?: (limits: Limits) => TrendSettle;
  /** The channels that were read, where they are not the subject's. */
  readonly channels?: readonly string[];
}

/** A judgement that rests on readings and is no quantity against limits: a pattern among them. */
export interface Recognised {
  readonly taken: true;
  readonly verdict: 'within' | 'out' | 'too-close';
  /** One tier without limits, for its weight, its words and its basis. */
  readonly tiers: readonly Tier[];
  readonly remarks: readonly Remark[];
  /** The check's word for what it found, where it has words, and the chance of each. */
  readonly pattern?: string;
  readonly patternWeights?: Readonly<Record<string, number>>;
}

export type Outcome = Refused | Quantity | Recognised;

/** `not taken` with its reason. */
export const missing = (reason: Missing): Refused => ({ taken: false, missing: reason });

/** The last snapshot of an occasion: the one that its finding bears. */
export const newestOf = (occasion: Occasion): Snapshot => {
  const last = occasion[occasion.length - 1];
  if (!last) throw new Error('an occasion without a snapshot');
  return last;
};
