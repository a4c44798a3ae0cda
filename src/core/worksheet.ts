import type { Finding } from './finding.ts';
import type { Instant, Job, Snapshot, State } from './job.ts';
import type { Comparison } from './loop/compare.ts';
import type { OpenDanger } from './loop/dangers.ts';
import type { Fault } from './loop/faults.ts';
import type { Now } from './now/now.ts';
import type { Diagnosis } from './suspects/diagnosis.ts';
import type { Ranking } from './suspects/ranking.ts';
import type { PackRef, Warning, WorksheetHoldPoint, WorksheetStep } from './worksheet-parts.ts';

/** What is said of one job at one instant, but for what only a reader of its suspects wants. */
export interface BriefWorksheet {
  readonly job: Job;
  readonly asOf: Instant;
  readonly packs: readonly PackRef[];
  readonly findings: readonly Finding[];
  /** Every step, done and not needed too; outstanding ones first, in an order that respects what waits for what. */
  readonly steps: readonly WorksheetStep[];
  readonly holdPoints: readonly WorksheetHoldPoint[];
  /** How probable each suspect is and what to do about it; null where no pack has suspects, or nothing is out. */
  readonly diagnosis: Diagnosis | null;
  /** What can hurt somebody, acknowledged or not. */
  readonly dangers: readonly OpenDanger[];
  /** Faults that are confirmed and that nobody has put right. */
  readonly faults: readonly Fault[];
  /** Readings that would be worth taking and hold nothing, by the state to take them in. */
  readonly worthTaking: readonly { readonly state: State; readonly channels: readonly string[] }[];
  /** The one thing to do now. */
  readonly now: Now;
  readonly warnings: readonly Warning[];
}

/** All that is said of one job at one instant. */
export interface Worksheet extends BriefWorksheet {
  /** All that the suspects come to; null where there are none. */
  readonly ranking: Ranking | null;
  /** Readings and checks before the work against those after it; null where there was no work. */
  readonly beforeAfter: Comparison | null;
}

/** Two snapshots that somebody wants side by side. */
export interface Compared {
  readonly before: Snapshot;
  readonly after: Snapshot;
  readonly comparison: Comparison;
}
