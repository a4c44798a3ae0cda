import type { CodeMeaning, Layout, State } from '../job.ts';
import type { SpaceName } from './spaces.ts';

/** Where the value of a group of evidence comes from; the first source that was judged decides. */
export type Source =
  | {
      readonly kind: 'finding';
      /** `pack/check` */
      readonly check: string;
      readonly subject: string | null;
      /** Empty for every state. */
      readonly states: readonly State[];
    }
  /** Findings at the corners, all of them together as one observation. */
  | { readonly kind: 'corners'; readonly checks: readonly string[] }
  /** Whether the newest code list holds a code of one of these meanings. */
  | { readonly kind: 'codes'; readonly means: readonly CodeMeaning[] };

/** Findings that come from one cause, which count as one observation however many they are. */
export interface EvidenceGroup {
  readonly id: string;
  readonly title: string;
  readonly space: SpaceName;
  readonly sources: readonly Source[];
  /** True where levelling brings the signals to their target, whatever is wrong. */
  readonly levelled: boolean;
  /**
   * True where it looks more closely at readings that another group has counted: it tells apart the suspects that
   * mention it, and says nothing of the rest.
   */
  readonly refines: boolean;
}

/** How often a suspect shows a group as one of its values. */
export interface Sign {
  readonly group: string;
  /** A value of the group's space; `corner` is the suspect's own. */
  readonly shows: string;
  /** P(shows | suspect), from 0 to 1. */
  readonly how: number;
}

/**
 * Something that must be on record: a test that found one of these, or a group of readings that shows a value. For a
 * suspect of one corner, `corner` stands for its own: as a value, and at the end of an outcome's name.
 */
export interface Confirmation {
  readonly test: string | null;
  readonly found: readonly string[];
  readonly group: string | null;
  readonly shows: string | null;
}

/** A part, or a condition, that could be at fault. */
export interface Suspect {
  readonly id: string;
  readonly perCorner: boolean;
  readonly title: string;
  /** Layouts that have it; null for every one. */
  readonly layouts: readonly Layout[] | null;
  /** Weight against the other suspects before any reading; at each corner where it is per corner. */
  readonly prior: number;
  /** What is lost if it is replaced and was good: money that does not come back, and minutes of work. */
  readonly wrongPart: { readonly amount: number; readonly minutes: number };
  readonly confirm: readonly Confirmation[];
  /** The component that would be worked on. */
  readonly component: string;
  /** Whether a part is ordered for it; false for what is mended, adjusted or set up. */
  readonly isPart: boolean;
  readonly expects: readonly Sign[];
}

/** What a pack says of suspects as a whole. */
export interface SuspectTerms {
  /** The share of all priors that belongs to what the pack does not list; the usual one where absent. */
  readonly somethingElse?: number;
  /** What giving the job to somebody else costs, in the job's currency; null where the pack does not say. */
  readonly escalate: number | null;
}

/** P(outcome | suspect) for one suspect, by its name. */
export type SuspectChance = readonly [suspect: string, chance: number];

/** How a test tells suspects apart, beside its title and its minutes. */
export interface TestTerms {
  /**
   * For each outcome, by its place in the test: P(outcome | suspect) by suspect (`sensor`, or `sensor.RF` where the
   * outcome tells the corner), `others` for all that it leaves out.
   */
  readonly how: readonly (readonly SuspectChance[])[];
  /** The group of readings that is the same evidence; only one of both counts. */
  readonly group: string | null;
  readonly setUp: { readonly id: string; readonly minutes: number } | null;
  /** Minutes of the work that doing it brings after it, such as a learn that it undoes; 0 for none. */
  readonly brings: number;
  /** Components that, worked on, make a result stale; null: any work does. */
  readonly depends: readonly string[] | null;
  /** What must be on record before it may be done. */
  readonly after: readonly Confirmation[];
  readonly layouts: readonly Layout[] | null;
}
