import type { Act } from './acts.ts';
import type { Missing } from './finding.ts';
import type { CodeMeaning, Instant, LogEntry, State, Verb } from './job.ts';
import type { Verdict } from './readings/verdict.ts';
import type { Mark } from './steps/condition.ts';
import type { AdviceCondition } from './suspects/ranking.ts';

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
  | { readonly kind: 'waiver-void'; readonly finding: string }
  | {
      readonly kind: 'access-closed';
      readonly capability: string;
      readonly equipment: string | null;
      /** When the last access ended, or will; null where none was bought. */
      readonly ended: Instant | null;
      /** What it costs to buy it, again. */
      readonly amount: number | null;
      readonly currency: string | null;
    }
  | { readonly kind: 'standing-authority'; readonly by: string; readonly upTo: number }
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
  | { readonly kind: 'not-so' }
  /** What the job says of the vehicle: a danger. */
  | { readonly kind: 'stated'; readonly what: string }
  /** What could explain the findings, the likeliest first. */
  | {
      readonly kind: 'suspected';
      readonly title: string;
      readonly probability: number;
      readonly confirmed: boolean;
    }
  /** What a test is expected to save; null where nothing is priced. */
  | { readonly kind: 'pays'; readonly saves: number | null; readonly currency: string | null }
  /** The repair wants it on record, whatever it saves. */
  | { readonly kind: 'confirms'; readonly title: string }
  | { readonly kind: 'fault-seen'; readonly title: string; readonly at: Instant; readonly by: string | null }
  | { readonly kind: 'fault-tested'; readonly title: string; readonly test: string; readonly found: string }
  | { readonly kind: 'fault-advised'; readonly title: string; readonly probability: number }
  /** It shows again after this work on it. */
  | { readonly kind: 'returned'; readonly title: string; readonly did: Verb; readonly at: Instant }
  | { readonly kind: 'test-found'; readonly title: string; readonly found: string }
  | { readonly kind: 'no-test-pays' }
  /** Nothing that is suspected could show it. */
  | { readonly kind: 'not-blamed' }
  | { readonly kind: 'forbidden'; readonly acts: readonly Act[] }
  | { readonly kind: 'waiting-since'; readonly at: Instant; readonly whom: string | null }
  /** What was done to a component. */
  | { readonly kind: 'worked'; readonly title: string; readonly did: Verb; readonly at: Instant }
  /** A test of before the work that is to be done again, or that found the same again. */
  | { readonly kind: 'retest-test'; readonly title: string; readonly found: string | null }
  | {
      readonly kind: 'retest-readings';
      readonly state: State;
      readonly channels: readonly string[];
      readonly after: string;
    }
  /** Read again, but not in the conditions of before. */
  | { readonly kind: 'retest-unlike'; readonly state: State; readonly conditions: readonly string[] }
  | { readonly kind: 'stands'; readonly condition: string; readonly word: string }
  | { readonly kind: 'moved'; readonly channel: string; readonly by: number }
  | { readonly kind: 'fault-open'; readonly title: string }
  | { readonly kind: 'no-fault' }
  | { readonly kind: 'not-judged-without'; readonly conditions: readonly string[] }
  | { readonly kind: 'repair-wanted'; readonly title: string }
  | { readonly kind: 'no-equipment'; readonly needs: string }
  | { readonly kind: 'nothing-open' };

export const stepStates = ['ready', 'waiting', 'done', 'not-needed'] as const;
export type StepState = (typeof stepStates)[number];

export interface WorksheetStep {
  /** `pack/step`, or `readings/STATE` for readings that the checks still want. */
  readonly id: string;
  /** The step of the pack that it is made from, such as `retest`; `readings` for readings. */
  readonly base: string;
  readonly title: string;
  readonly state: StepState;
  /** Ids of the steps and hold points that come first. */
  readonly waitsFor: readonly string[];
  readonly because: readonly Reason[];
  readonly minutes: number;
  /** Minutes of waiting beside the work. */
  readonly elapsed: number;
  /** When it is due, for one that is listed and holds nothing; null for all others. */
  readonly due: Instant | null;
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
  /** False where it is a reminder: a cheap part may be ordered though it is not clear. */
  readonly holds: boolean;
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
  /** An entry that somebody wrote although its hold point was not clear. */
  | { readonly kind: 'despite'; readonly entry: LogEntry; readonly despite: string }
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
  | { readonly kind: 'ambiguous-time'; readonly text: string }
  /** A pack that says something else than the published or shipped one of the same name and version. */
  | {
      readonly kind: 'pack-replaced';
      readonly pack: string;
      readonly version: string;
      readonly path: string;
    };

export interface PackRef {
  readonly id: string;
  readonly version: string;
  readonly sha256: string;
}
