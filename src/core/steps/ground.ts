import type { Instant, Job } from '../job.ts';
import type { Fault } from '../loop/faults.ts';
import type { Retest } from '../loop/retests.ts';
import type { Step } from '../pack.ts';
import type { Diagnosis } from '../suspects/diagnosis.ts';
import type { SuspectModel } from '../suspects/suspect-model.ts';
import type { Reason } from '../worksheet-parts.ts';
import type { FindingsAsked } from './findings-asked.ts';

/** What facts are asked of. */
export interface Ground {
  readonly job: Job;
  readonly asOf: Instant;
  readonly findings: FindingsAsked;
  readonly steps: readonly Step[];
  /** Needed steps that are not done, once that is known; hold points ask for it. */
  readonly open: readonly {
    readonly id: string;
    readonly name: string;
    readonly base: string;
    readonly title: string;
  }[];
  /** What the suspects come to; null where no pack has any, or nothing is out. */
  readonly diagnosis: Diagnosis | null;
  /** Everything that could be at fault on such a vehicle, whatever was found. */
  readonly model: SuspectModel;
  /** Faults that are confirmed and not put right. */
  readonly faults: readonly Fault[];
  /** What still has to show that each repair has helped. */
  readonly retests: readonly Retest[];
  /** Steps that would be needed and not done, were the job as given: what a repair would bring. */
  readonly openIf: (job: Job) => readonly Step[];
  /** Whether work that failed counts: it brings the steps that follow work, and answers none. */
  readonly withFailedWork: boolean;
}

/** Whether a fact holds, when its evidence was complete, and the reasons for or against. */
export interface Answer {
  readonly holds: boolean;
  readonly at: Instant | null;
  readonly reasons: readonly Reason[];
}

export const yes = (at: Instant | null = null, ...reasons: Reason[]): Answer => ({
  holds: true,
  at,
  reasons,
});
export const no = (...reasons: Reason[]): Answer => ({ holds: false, at: null, reasons });

/** The ground on which to ask whether something is needed: work that failed brings what follows work, too. */
export const bringing = (ground: Ground): Ground => ({ ...ground, withFailedWork: true });
