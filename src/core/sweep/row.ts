import type { Finding } from '../finding.ts';
import type { Instant, Job, State, Weight } from '../job.ts';
import type { Now } from '../now/now.ts';

/** What is out or too close in a job, or was accepted; by a name that stays the same however the file is edited. */
export interface RowFinding {
  /** `pack/check:subject`; with the state it names a finding from one night to the next. */
  readonly id: string;
  readonly state: State | null;
  readonly title: string;
  readonly verdict: Extract<Finding['verdict'], 'out' | 'too-close'>;
  /** The weight at which it counts. */
  readonly weight: Weight;
  readonly says: string;
  /** Why it counts for nothing; null where it counts. */
  readonly waived: { readonly reason: string; readonly by: string; readonly until: string } | null;
}

export interface RowHoldPoint {
  readonly id: string;
  readonly title: string;
  readonly clear: boolean;
  /** The first thing that it lacks; null where it is clear. */
  readonly reason: string | null;
}

export interface RowStep {
  readonly id: string;
  readonly title: string;
  readonly state: 'ready' | 'waiting';
}

/** What to do now with a job, as the worksheet says it, in words. */
export interface RowNow
  extends Pick<Now, 'kind' | 'id' | 'minutes' | 'elapsed' | 'cautions' | 'command' | 'for'> {
  readonly title: string;
  readonly because: string;
}

/** Something that ends of itself: an accepted finding, or access that was paid for. */
export interface RowEnd {
  readonly kind: 'waiver' | 'access';
  /** The finding waived, or the capability paid for. */
  readonly what: string;
  /** The first instant that it no longer covers. */
  readonly at: Instant;
  /** The last day of a waiver as typed; null for access. */
  readonly until: string | null;
  /** A waiver's reason; null for access. */
  readonly reason: string | null;
}

/** A pack that a job was judged by. */
export interface RowPack {
  readonly id: string;
  readonly version: string;
  readonly sha256: string;
  /** Whether it takes the place of a published or shipped one of the same name and version. */
  readonly replaced: boolean;
}

/**
 * What a sweep keeps of one job: all that its line tells but for what changes from day to day of itself. Plain data,
 * so that it can be written down and read again.
 */
export interface Standing {
  readonly job: string;
  readonly title: string;
  readonly vehicle: string;
  readonly status: Job['status'];
  readonly zone: string;
  readonly opened: Instant;
  /** Whether a finding reaches the fail level. */
  readonly fails: boolean;
  /** The heaviest first. */
  readonly findings: readonly RowFinding[];
  readonly holdPoints: readonly RowHoldPoint[];
  /** Those outstanding, in order. */
  readonly steps: readonly RowStep[];
  readonly now: RowNow;
  /** Whom or what the job waits for, and what its next step waits for. */
  readonly waitsFor: readonly string[];
  readonly ends: readonly RowEnd[];
  readonly warnings: readonly string[];
  readonly packs: readonly RowPack[];
}

/** What is wrong with a file that could not be judged. */
export interface RowProblem {
  readonly code: string;
  readonly message: string;
  readonly line: number | null;
  readonly column: number | null;
  readonly hint: string | null;
  /** Where another file than the job is at fault. */
  readonly file?: string;
}

/** Something that ends of itself, seen from one instant. */
export interface DatedEnd extends RowEnd {
  readonly ended: boolean;
  /** Not ended, and it will be within the days that were asked for. */
  readonly soon: boolean;
}

/** What became of a job since another night, in short words; `gone` stands for a job that is no longer there. */
export interface Change {
  readonly kind: 'new' | 'changed' | 'unchanged' | 'gone';
  readonly says: readonly string[];
}

/** One job's line. */
export interface JudgedRow extends Omit<Standing, 'ends'> {
  readonly file: string;
  readonly asOf: Instant;
  /** Whole days since it was opened. */
  readonly daysOpen: number;
  /** The next to end first. */
  readonly ends: readonly DatedEnd[];
  readonly problems: null;
  /** Null where there is nothing to compare with. */
  readonly change: Change | null;
}

/** The row of a job on the last night at which its file could be judged, as it was written down then. */
export type LastGood = Readonly<Record<string, unknown>>;

/** The line of a file that could not be judged. */
export interface UnjudgedRow {
  readonly file: string;
  readonly job: null;
  readonly problems: readonly RowProblem[];
  readonly now: RowNow;
  readonly change: Change | null;
  /** Null where no earlier night is known, or the file could not be judged then either. */
  readonly last: LastGood | null;
}

/** The line of a job that was there another night and is no longer. */
export interface GoneRow {
  readonly file: string;
  readonly job: string | null;
  readonly vehicle: string | null;
  readonly title: string | null;
  readonly change: Change & { readonly kind: 'gone' };
}

export type Row = JudgedRow | UnjudgedRow;

const day = 86_400_000;

const datedEnds = (ends: readonly RowEnd[], asOf: Instant, withinDays: number): DatedEnd[] =>
  ends
    .map((end) => ({
      ...end,
      ended: end.at <= asOf,
      soon: end.at > asOf && end.at <= asOf + withinDays * day,
    }))
    .sort((a, b) => a.at - b.at);

/** A job's line as it reads at an instant. */
export const rowAt = (file: string, kept: Standing, asOf: Instant, withinDays: number): JudgedRow => ({
  // Field by field: to spread thousands of them takes longer than to read them.
  file,
  job: kept.job,
  title: kept.title,
  vehicle: kept.vehicle,
  status: kept.status,
  zone: kept.zone,
  opened: kept.opened,
  fails: kept.fails,
  findings: kept.findings,
  holdPoints: kept.holdPoints,
  steps: kept.steps,
  now: kept.now,
  waitsFor: kept.waitsFor,
  warnings: kept.warnings,
  packs: kept.packs,
  asOf,
  daysOpen: Math.max(0, Math.floor((asOf - kept.opened) / day)),
  ends: kept.ends.length === 0 ? [] : datedEnds(kept.ends, asOf, withinDays),
  problems: null,
  change: null,
});

/** Whether a row is a job's. */
export const isJudged = (row: Row): row is JudgedRow => row.problems === null;
