import type { CodeMeaning, ConditionName, Layout, State, Verb, Weight } from '../job.ts';
import type { Verdict } from '../readings/verdict.ts';

/** Log entries that match: any of the verbs (`work` for all that change the vehicle) on any of the things. */
export interface LogPattern {
  readonly did: readonly (Verb | 'work')[];
  /** A component's base matches it at every corner; null matches anything. */
  readonly what: readonly string[] | null;
}

/** A moment in the log that evidence must lie before or after. */
export type Mark = 'before-work' | 'after-work' | 'before-clear' | 'after-clear' | 'after-road-test';

export const marks: readonly Mark[] = [
  'before-work',
  'after-work',
  'before-clear',
  'after-clear',
  'after-road-test',
];

/**
 * `in-question`: something is out, and a part is blamed or was ordered; `ordered`: one was, whatever is out; `blamed` by a
 * finding that is out; `advised`; `equipped` for all that would follow.
 */
export const partQuestions = ['in-question', 'ordered', 'blamed', 'advised', 'equipped'] as const;

/** The closed list of facts that packs may ask for. */
export type Fact =
  | { readonly fact: 'log'; readonly pattern: LogPattern }
  | {
      readonly fact: 'finding';
      readonly check: string;
      readonly verdict: readonly Verdict[];
      readonly subject: string | null;
    }
  | {
      readonly fact: 'no-finding';
      readonly weight: Weight;
      readonly packs: readonly string[] | null;
      readonly exceptMeans: readonly CodeMeaning[];
      readonly exceptChecks: readonly string[];
      /** Leaves out what is older than work: it counts for the release, not for what comes before. */
      readonly currentOnly: boolean;
    }
  | { readonly fact: 'code-means'; readonly means: readonly CodeMeaning[] }
  | { readonly fact: 'taken'; readonly states: readonly State[]; readonly mark: Mark | null }
  | { readonly fact: 'code-list'; readonly mark: Mark | null; readonly state: State | null }
  | {
      readonly fact: 'conditions';
      readonly words: Partial<Readonly<Record<ConditionName, string>>>;
      readonly channels: readonly string[];
      /** Empty for every state. */
      readonly states: readonly State[];
    }
  | { readonly fact: 'layout'; readonly layouts: readonly Layout[] }
  | { readonly fact: 'step'; readonly steps: readonly string[] }
  | { readonly fact: 'steps'; readonly except: readonly string[] }
  | { readonly fact: 'cost'; readonly is: 'authorised' | 'within-authorised' }
  /** What is asked before a part is ordered: of what was ordered and is not fitted yet, else of the leading suspect. */
  | { readonly fact: 'part'; readonly is: (typeof partQuestions)[number] }
  | { readonly fact: 'evidence'; readonly is: 'fresh' }
  | { readonly fact: 'waivers'; readonly is: 'none-ended' }
  | { readonly fact: 'access'; readonly capability: string }
  /** A condition that a snapshot states: any, or the newest that states it at all. */
  | {
      readonly fact: 'stated';
      readonly words: Partial<Readonly<Record<ConditionName, readonly string[]>>>;
      readonly newest: boolean;
    }
  /** Readings of a channel that are another than before the first work, by more than `over` in its unit. */
  | { readonly fact: 'moved'; readonly channel: string; readonly over: number }
  /** `none`: no confirmed fault is left; `confirmed`: there is one. */
  | { readonly fact: 'faults'; readonly is: 'none' | 'confirmed' }
  /** Everything that was out before the work is within after it, in the same state. */
  | { readonly fact: 'proof'; readonly is: 'complete' };

/** One small form over the facts; a pack is data and cannot run anything. */
export type Condition =
  | { readonly all: readonly Condition[] }
  | { readonly any: readonly Condition[] }
  | { readonly not: Condition }
  | Fact;
