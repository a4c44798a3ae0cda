import type { Axle } from '../corner.ts';
import type { CodeMeaning, CodePlace, Layout, State, SymptomPart } from '../job.ts';
import type { Per, Place } from '../key.ts';
import type { Values } from './evidence/spaces.ts';

/** Words of the driver, by the part of a symptom that says them: any of the words of each part. */
export type SymptomWords = Partial<Readonly<Record<SymptomPart, readonly string[]>>>;

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
  /** Whether the newest code list holds a code of one of these meanings, at one of these places where any are named. */
  | { readonly kind: 'codes'; readonly means: readonly CodeMeaning[]; readonly at: readonly CodePlace[] }
  /** The corners that codes of these meanings name. */
  | { readonly kind: 'code-corners'; readonly means: readonly CodeMeaning[] }
  /** Whether the driver says it; no evidence where the driver says nothing of that part. */
  | { readonly kind: 'symptom'; readonly part: SymptomPart; readonly is: readonly string[] }
  /** A word of the group's own, where the driver says all of these of one symptom. */
  | { readonly kind: 'said'; readonly word: string; readonly words: SymptomWords }
  /** The corners of which the driver says it. */
  | { readonly kind: 'symptom-corners'; readonly words: SymptomWords };

/** Findings that come from one cause, which count as one observation however many they are. */
export interface EvidenceGroup extends Values {
  /** `reference`, or `honesty.rear` for one that stands for a place. */
  readonly id: string;
  /** The name without a place. */
  readonly base: string;
  readonly per: Per;
  /** The corner or axle that it is about; null for the whole vehicle. */
  readonly place: Place | null;
  readonly title: string;
  readonly sources: readonly Source[];
  /** True where levelling brings the signals to their target, whatever is wrong. */
  readonly levelled: boolean;
  /**
   * True where it looks more closely at readings that another group has counted: it tells apart the suspects that
   * mention it, and says nothing of the rest.
   */
  readonly refines: boolean;
  /** Groups by which it follows: once one of them shows something, this one is the same cause and counts no more. */
  readonly follows: readonly string[];
  /**
   * How often it shows something that no fault explains, from 0 to 1, as the pack states it; then a slip shows it no more
   * often either. Null for the rate of false alarms, and slips to any value.
   */
  readonly byChance: number | null;
}

/** How often a suspect shows a group as one of its values. */
export interface Sign {
  /** The group's name without a place. */
  readonly group: string;
  /**
   * Values of the group, shared in equal parts. Of a suspect at a corner or an axle `own` is its own corner or axle,
   * `own-spring` a spring there, `own-low` and `own-high` its own axle; `any` is any corner.
   */
  readonly shows: readonly string[];
  /** P(shows | suspect), from 0 to 1. */
  readonly how: number;
  /** Counts only for readings taken while levelling was so; null for all. */
  readonly levelling: 'active' | 'off' | null;
  /**
   * Of a group that stands for axles: only at these, or at the `other` one than the suspect's own; null for all that
   * concern the suspect.
   */
  readonly at: readonly (Axle | 'other')[] | null;
}

/**
 * Something that must be on record: a test that found one of these, or a group of readings that shows a value. For a
 * suspect of one corner or axle, `own` (or `corner`) stands for its own: as a value, and at the end of an outcome's name.
 */
export interface Confirmation {
  readonly test: string | null;
  readonly found: readonly string[];
  readonly group: string | null;
  readonly shows: readonly string[];
  /** Any of these confirms as well. */
  readonly or: readonly Confirmation[];
}

/**
 * One way in which a suspect fails. What it shows belongs together: a valve that leaks hisses and fills slowly, one that is
 * stuck shut does neither.
 */
export interface Mode {
  readonly id: string;
  readonly title: string;
  /** How often the suspect fails so; those of a suspect add up to 1. */
  readonly share: number;
  /** True where it is so at one corner, any of them alike: `own` is then that corner. */
  readonly perCorner: boolean;
  /** What it shows; of a group that is not named here what the suspect says holds. */
  readonly expects: readonly Sign[];
}

/** A part, or a condition, that could be at fault. */
export interface Suspect {
  readonly id: string;
  readonly per: Per;
  readonly title: string;
  /** Layouts that have it; null for every one. */
  readonly layouts: readonly Layout[] | null;
  /** Weight against the other suspects before any reading; at each place where it is per corner or axle. */
  readonly prior: number;
  /** Components that earlier work on, at its place, makes it likelier; its own always does. */
  readonly raisedBy: readonly string[];
  /** How many times likelier such work makes it. */
  readonly raise: number;
  /** What is lost if it is replaced and was good: money that does not come back, and minutes of work. */
  readonly wrongPart: { readonly amount: number; readonly minutes: number };
  readonly confirm: readonly Confirmation[];
  /** The component that would be worked on. */
  readonly component: string;
  /** Whether a part is ordered for it; false for what is mended, adjusted or set up. */
  readonly isPart: boolean;
  /** Whether the part is coded to its vehicle, so that it cannot go back. */
  readonly isCoded: boolean;
  /** False for an instrument: nothing on the vehicle is repaired, readings are taken again. */
  readonly repaired: boolean;
  /** How long a look at it takes, and how often an eye sees that it is at fault. */
  readonly inspect: { readonly minutes: number; readonly sees: number };
  /** The ways in which it fails; none where it fails in one way only. */
  readonly modes: readonly Mode[];
  readonly expects: readonly Sign[];
}

/** What a pack says of suspects as a whole. */
export interface SuspectTerms {
  /** The share of all priors that belongs to what the pack does not list; the usual one where absent. */
  readonly somethingElse?: number;
  /** What giving the job to somebody else costs, in the job's currency; null where the pack does not say. */
  readonly escalate: number | null;
  /** An hour of work, for weighing tests where neither job nor shop says what it costs; null where the pack does not say. */
  readonly usualRate: number | null;
  /** An hour of waiting, in the job's currency. */
  readonly downtime: number;
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
  /** The group of readings that is the same evidence, without a place; only one of both counts. */
  readonly group: string | null;
  readonly setUp: { readonly id: string; readonly minutes: number } | null;
  /** Minutes of the work that doing it brings after it, such as a learn that it undoes; 0 for none. */
  readonly brings: number;
  /** Minutes of waiting beside the work. */
  readonly elapsed: number;
  /** Components that, worked on, make a result stale; null: any work does. */
  readonly depends: readonly string[] | null;
  /** What must be on record before it may be done. */
  readonly after: readonly Confirmation[];
  /** What must not be on record: while it is, the test would hurt. */
  readonly notWhile: readonly Confirmation[];
  /** Figures of the vehicle's plate without which it is not offered. */
  readonly wants: readonly WantedFigure[];
  readonly layouts: readonly Layout[] | null;
}

/** Figures of the air system's plate that a test may want. */
export const wantedFigures = ['rated-pressure', 'rated-current'] as const;
export type WantedFigure = (typeof wantedFigures)[number];
