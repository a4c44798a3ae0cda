import type { Finding, Missing } from './finding.ts';
import type { CodeMeaning, Instant, Job, LogEntry, State, Verb } from './job.ts';
import type { Verdict } from './readings/verdict.ts';
import type { Mark } from './steps/condition.ts';
import type { AdviceCondition, Ranking } from './suspects/ranking.ts';
import type { WeighedSuspects } from './suspects/weigh.ts';

/** Why something holds or does not: tagged data, to which the report puts words. */
export type Reason =
  | { readonly kind: 'every-job' }
  | { readonly kind: 'logged'; readonly did: Verb; readonly what: string | null; readonly at: Instant }
  | { readonly kind: 'not-logged'; readonly did: readonly string[]; readonly what: readonly string[] | null }
  | { readonly kind: 'failed'; readonly did: Verb; readonly what: string | null; readonly at: Instant }
  | { readonly kind: 'undone'; readonly did: Verb; readonly what: string | null; readonly at: Instant }
  | {
      readonly kind: 'finding';
      readonly finding: string;
      readonly title: string;
      readonly subject: string;
      readonly state: State | null;
      readonly verdict: Verdict;
      readonly stale: boolean;
    }
  | {
      readonly kind: 'finding-wanted';
      readonly check: string;
      readonly title: string;
      readonly verdict: readonly string[];
    }
  | { readonly kind: 'code-means'; readonly means: readonly CodeMeaning[]; readonly found: string | null }
  | {
      readonly kind: 'not-taken';
      readonly states: readonly string[];
      readonly mark: Mark | null;
      readonly tooLate: boolean;
    }
  | { readonly kind: 'taken'; readonly snapshot: string }
  | { readonly kind: 'no-code-list'; readonly mark: Mark | null; readonly tooLate: boolean }
  | { readonly kind: 'conditions-wanted'; readonly wants: readonly string[] }
  | { readonly kind: 'layout'; readonly layout: string }
  | { readonly kind: 'step-open'; readonly step: string; readonly title: string }
  | { readonly kind: 'cost-not-authorised' }
  | {
      readonly kind: 'cost-above';
      readonly total: number;
      readonly authorised: number;
      readonly currency: string | null;
    }
  | { readonly kind: 'cost-unknown'; readonly what: string }
  | {
      readonly kind: 'stale-evidence';
      /** Titles of the checks with the subjects of each. */
      readonly checks: readonly { readonly title: string; readonly subjects: readonly string[] }[];
    }
  | { readonly kind: 'waiver-ended'; readonly finding: string; readonly until: string }
  | { readonly kind: 'access-closed'; readonly capability: string; readonly equipment: string | null }
  | { readonly kind: 'readings-missing'; readonly channels: readonly string[] }
  | {
      readonly kind: 'reading-open';
      readonly title: string;
      readonly subject: string;
      readonly missing: Missing;
    }
  | {
      readonly kind: 'readings-stale';
      readonly channels: readonly string[];
      readonly after: readonly string[];
    }
  | { readonly kind: 'part-in-question'; readonly title: string }
  /** Nothing that is out speaks for it; perhaps something that is too close to tell. */
  | { readonly kind: 'part-not-blamed'; readonly title: string; readonly tooClose: readonly string[] }
  | {
      readonly kind: 'part-not-leading';
      readonly title: string;
      readonly probability: number;
      readonly leader: string;
      readonly leads: number;
    }
  | { readonly kind: 'part-not-weighed'; readonly title: string }
  | {
      readonly kind: 'part-not-advised';
      readonly title: string;
      readonly conditions: readonly AdviceCondition[];
    }
  | {
      readonly kind: 'part-unequipped';
      readonly title: string;
      readonly step: string;
      readonly needs: string;
    }
  | { readonly kind: 'not-so' };

export type StepState = 'ready' | 'waiting' | 'done' | 'not-needed';

export interface WorksheetStep {
  /** `pack/step`, or `readings/STATE` for readings that the checks still want. */
  readonly id: string;
  readonly title: string;
  readonly state: StepState;
  /** Ids of the steps and hold points that come first. */
  readonly waitsFor: readonly string[];
  readonly because: readonly Reason[];
  readonly minutes: number;
  readonly needs: string | null;
  /** True where a shop file names equipment and none of it has the capability. */
  readonly unequipped: boolean;
  readonly points: readonly string[];
  readonly cautions: readonly string[];
}

export interface WorksheetHoldPoint {
  readonly id: string;
  readonly title: string;
  readonly clear: boolean;
  readonly reasons: readonly Reason[];
  readonly cautions: readonly string[];
}

/** Something that a job does not say, and what was taken for it. */
export type Assumption =
  | { readonly of: 'opened'; readonly at: Instant; readonly from: 'first-time' | 'saved' }
  | { readonly of: 'zone'; readonly zone: string }
  | { readonly of: 'layout'; readonly layout: string }
  | { readonly of: 'packs' }
  | { readonly of: 'state'; readonly state: State }
  /** These snapshots do not say when they were taken, so it was when the job was opened. */
  | { readonly of: 'taken'; readonly snapshots: readonly string[] };

export type Warning =
  /** What the file leaves out and the judgement hangs on: one line for all of it. */
  | { readonly kind: 'assumed'; readonly what: readonly Assumption[] }
  | { readonly kind: 'snapshot-in-future'; readonly snapshot: string; readonly at: Instant }
  | { readonly kind: 'log-in-future'; readonly entry: LogEntry }
  | { readonly kind: 'waits'; readonly what: string; readonly waitsFor: string | null }
  | { readonly kind: 'closed-not-released' }
  | { readonly kind: 'authorisation-in-future'; readonly amount: number; readonly at: Instant }
  | { readonly kind: 'waiver-ended'; readonly finding: string; readonly until: string }
  | { readonly kind: 'waiver-void'; readonly finding: string }
  | { readonly kind: 'waiver-matches-nothing'; readonly finding: string }
  | { readonly kind: 'channel-not-judged'; readonly channel: string; readonly pack: string }
  | { readonly kind: 'name-not-used'; readonly name: string; readonly pack: string | null }
  /** A test that is done at corners or axles, logged without one: it is evidence for none. */
  | { readonly kind: 'test-without-corner'; readonly test: string; readonly places: readonly string[] }
  /** What an eye saw, in words that are no evidence. */
  | { readonly kind: 'sight-in-words'; readonly component: string; readonly found: string }
  | { readonly kind: 'ambiguous-time'; readonly text: string };

export interface PackRef {
  readonly id: string;
  readonly version: string;
  readonly sha256: string;
}

/** What is said of one job at one instant, but for what only a reader of its suspects wants. */
export interface BriefWorksheet {
  readonly job: Job;
  readonly asOf: Instant;
  readonly packs: readonly PackRef[];
  readonly findings: readonly Finding[];
  /** Every step, done and not needed too; outstanding ones first, in an order that respects what waits for what. */
  readonly steps: readonly WorksheetStep[];
  readonly holdPoints: readonly WorksheetHoldPoint[];
  /** How probable each suspect is; null where no pack has suspects for the vehicle, or nothing is out. */
  readonly suspects: WeighedSuspects | null;
  readonly warnings: readonly Warning[];
}

/** All that is said of one job at one instant. */
export interface Worksheet extends BriefWorksheet {
  /** All that the suspects come to; null where there are none. */
  readonly ranking: Ranking | null;
}
