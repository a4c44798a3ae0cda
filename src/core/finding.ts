import type { Corner } from './corner.ts';
import type { CodeMeaning, CodePlace, State, Waiver, Weight } from './job.ts';
import type { CornerSignals, Fit, PatternFamily, Place, Sureness } from './readings/corner-patterns.ts';
import type { Spread } from './readings/estimate.ts';
import type { TrendSettle } from './readings/settle-trend.ts';
import type { UnitName } from './readings/units.ts';
import type { Beyond, Decision, Limits, Verdict } from './readings/verdict.ts';

export const basisKinds = ['published', 'vehicle-data', 'common-practice', 'from-memory'] as const;

/** Where a limit comes from. */
export interface Basis {
  readonly kind: (typeof basisKinds)[number];
  readonly source: string | null;
}

/** Why a check says nothing of a subject. Words are put to it in the report. */
export type Missing =
  | { readonly why: 'no-snapshot'; readonly states: readonly State[]; readonly channels: readonly string[] }
  | { readonly why: 'no-reading'; readonly states: readonly State[]; readonly channels: readonly string[] }
  | { readonly why: 'could-not-be-taken'; readonly channel: string; readonly text: string }
  /** It cannot be; `meant` is what could be typed in its place. */
  | {
      readonly why: 'unbelievable';
      readonly channel: string;
      readonly snapshot: string;
      readonly read: string;
      readonly meant: readonly string[];
    }
  | { readonly why: 'condition-not-stated'; readonly condition: string; readonly wants: string }
  | {
      readonly why: 'condition-differs';
      readonly condition: string;
      readonly wants: string;
      readonly is: string;
    }
  | { readonly why: 'vehicle-not-stated'; readonly what: string }
  | { readonly why: 'vehicle-differs'; readonly what: string; readonly wants: string; readonly is: string }
  | { readonly why: 'jumping'; readonly channel: string }
  | { readonly why: 'one-reading'; readonly channel: string }
  | { readonly why: 'no-table'; readonly what: string }
  | { readonly why: 'no-limits'; readonly what: string }
  | { readonly why: 'not-rested'; readonly hours: number; readonly wants: number }
  | { readonly why: 'rest-not-stated'; readonly wants: number }
  | { readonly why: 'too-few-snapshots'; readonly wants: number; readonly condition: string }
  /** Fewer points than a rate wants; `condition` is what each of them must state, or null. */
  | {
      readonly why: 'too-few-points';
      readonly has: number;
      readonly wants: number;
      readonly states: readonly State[];
      readonly condition: string | null;
    }
  /** So many volts are lost on the way to it that it says nothing of itself, V. */
  | { readonly why: 'feed-first'; readonly lost: number; readonly limit: number }
  | { readonly why: 'sleep-not-stated'; readonly wants: number }
  /** Minutes since everything went to sleep. */
  | { readonly why: 'not-asleep'; readonly minutes: number; readonly wants: number }
  /** The body hardly moved, mm: nothing tells whether its signal would have followed. */
  | { readonly why: 'not-moved'; readonly channel: string; readonly wants: number }
  | { readonly why: 'no-code-list' }
  | { readonly why: 'no-status-byte' }
  | { readonly why: 'no-lamp' }
  | { readonly why: 'reference-near-zero'; readonly channel: string };

/** What a reader should know beside the verdict. */
export type Remark =
  | { readonly kind: 'service-data'; readonly source: string }
  | { readonly kind: 'sense-not-stated' }
  | { readonly kind: 'gain-not-stated' }
  | { readonly kind: 'temperature-assumed'; readonly celsius: number }
  | { readonly kind: 'temperature-from-air'; readonly celsius: number }
  | { readonly kind: 'temperature-read'; readonly celsius: number }
  | { readonly kind: 'jumps'; readonly low: string; readonly high: string }
  | { readonly kind: 'may-freeze'; readonly celsius: number; readonly freezes: number }
  | { readonly kind: 'at-table-end'; readonly end: 'low' | 'high' }
  | { readonly kind: 'answered-by-step'; readonly step: string }
  | {
      readonly kind: 'code';
      readonly status: string;
      readonly means: CodeMeaning | null;
      /** The corner or circuit that the code names. */
      readonly at: CodePlace | null;
    }
  /** What a check of words finds, with how probable each of its words is. */
  | { readonly kind: 'word'; readonly word: string; readonly weights: Readonly<Record<string, number>> }
  | { readonly kind: 'equipment'; readonly steps: readonly string[] }
  /** The hold point that was not clear when an entry was written. */
  | { readonly kind: 'hold-point'; readonly point: string }
  /** These corners' volts lie outside the pairs that their heights were measured at. */
  | { readonly kind: 'extrapolated'; readonly corners: readonly Corner[] }
  | StanceRemark
  | WireRemark
  | PatternRemark
  | TrendRemark
  /** The chance of each word that a check has for what it found. */
  | { readonly kind: 'words'; readonly weights: Readonly<Record<string, number>> }
  /** The sense of the sensors is not stated, so that right and wrong way cannot be told apart. */
  | { readonly kind: 'sense-leaves-open' }
  | DepartureRemark
  /** What a compressor does: the pressure that it gains in `unit`, null where none was read, and its current, A. */
  | {
      readonly kind: 'effort';
      readonly gain: number | null;
      readonly unit: UnitName;
      readonly current: number;
      readonly rated: number | null;
    }
  /** What a limit of filling is for: the stated tank, or an earlier run of the vehicle. */
  | { readonly kind: 'fill-limit'; readonly by: 'tank' | 'earlier' }
  /** Not heavier than a look, since a condition is not stated so. */
  | { readonly kind: 'look-unless'; readonly condition: string; readonly wants: string }
  /** Not heavier than a look, since the battery was under half at rest. */
  | { readonly kind: 'look-since-flat'; readonly volts: number }
  /** A code that came while a test had its circuit open. */
  | { readonly kind: 'set-by-test' }
  | { readonly kind: 'stored-elsewhere'; readonly still: 'disables-levelling' | 'new-since-work' | null }
  /** How air and body of a closed system change in an hour, the pressure in `unit` and the body in mm. */
  | {
      readonly kind: 'closed-rates';
      readonly tank: number;
      readonly unit: UnitName;
      readonly heave: number;
      readonly roll: number;
      readonly pitch: number;
    }
  /** How far a corner moved by tape, mm, and its signal with it. */
  | { readonly kind: 'movement'; readonly tape: number; readonly signal: number; readonly unit: 'V' | 'mm' }
  /** All sensors turn alike, so that an electrical cause and the body show the same. */
  | { readonly kind: 'tape-decides' };

/** What goes with a rate. Temperatures are °C. */
export type TrendRemark =
  /** What cooling took of a pressure that fell, in `unit`; `all` where nothing else is seen. */
  | {
      readonly kind: 'cooling-explains';
      readonly share: number;
      readonly fall: number;
      readonly all: boolean;
      readonly unit: UnitName;
      readonly from: number;
      readonly to: number;
    }
  /** What a change of temperature did to a pressure that did not fall by it: positive where it took from it. */
  | {
      readonly kind: 'temperature-allowed-for';
      readonly share: number;
      readonly unit: UnitName;
      readonly from: number;
      readonly to: number;
    }
  /** The half-width of a rate, in `unit`, that an air temperature not stated leaves open. */
  | { readonly kind: 'air-taken-as-steady'; readonly rate: number; readonly unit: UnitName }
  /** How long a loss takes; `atLeast` where no loss is shown. */
  | {
      readonly kind: 'time-to-lose';
      readonly amount: number;
      readonly unit: UnitName;
      readonly hours: number;
      readonly atLeast: boolean;
    }
  | { readonly kind: 'time-to-fill'; readonly to: number; readonly unit: UnitName; readonly minutes: number }
  /** How far the temperature alone moves an air column, mm, upwards positive. */
  | { readonly kind: 'column-change'; readonly mm: number; readonly from: number; readonly to: number }
  /** This corner's own spring explains how all four moved. */
  | { readonly kind: 'own-spring'; readonly corner: Corner }
  /** What the spring of another corner does to this one, which was taken off; a loss is positive. */
  | { readonly kind: 'leans-with'; readonly corner: Corner; readonly share: number; readonly unit: UnitName }
  /** All corners fell alike, and no air temperature says whether cooling did it. */
  | { readonly kind: 'equal-fall-open' }
  /** One corner moved alone, as no rigid body does: the floor, or the tape. */
  | { readonly kind: 'no-body-moves-so' }
  /** The share of an air column, %, that cooling alone takes. */
  | { readonly kind: 'air-column'; readonly percent: number; readonly from: number; readonly to: number };

/** How far signals and tape depart from equal, or from their target: left less right, or a corner less its target. */
export interface DepartureRemark {
  readonly kind: 'departures';
  readonly signal: number;
  /** Of the signal. */
  readonly unit: 'V' | 'mm';
  /** mm */
  readonly tape: number;
  /** Expanded uncertainties (k = 2). */
  readonly expanded: { readonly signal: number; readonly tape: number };
}

/** How the body stands on the floor, mm: mean height, left less right, front less rear. */
export interface StanceRemark {
  readonly kind: 'stance';
  readonly by: 'tape' | 'sensors';
  readonly height: number;
  readonly leftUp: number;
  readonly noseUp: number;
  /** Expanded uncertainty (k = 2) of the two differences. */
  readonly expanded: { readonly leftUp: number; readonly noseUp: number };
}

/** What the wire alone drops beside what was read, V. */
export interface WireRemark {
  readonly kind: 'wire';
  readonly copper: number;
  /** A */
  readonly current: number;
  readonly celsius: number;
  /** Reading less copper. */
  readonly leaves: number;
  /** Expanded uncertainty (k = 2) of what is left. */
  readonly expanded: number;
}

/** Which pattern four corners make: the evidence that suspects are held to. */
export interface PatternRemark {
  readonly kind: 'pattern';
  readonly family: PatternFamily;
  readonly where: Place;
  readonly model: Fit['name'];
  /** As `Fit` has it: V in the body's direction, V at the ground end, or a fraction of the expected volts. */
  readonly amount: number;
  /** Against the next family. */
  readonly sure: Sureness;
  readonly next: PatternFamily;
  /** ΔBIC to the next family. */
  readonly lead: number;
  readonly weights: Readonly<Record<PatternFamily, number>>;
  /** What was fitted, to what and against which reference voltage. */
  readonly fits: readonly Fit[];
  readonly signals: CornerSignals;
  readonly reference: number;
}

export interface Measured {
  readonly value: number;
  readonly unit: UnitName;
  /** Expanded uncertainty. */
  readonly expanded: number;
}

/** What a quantity comes to against one of its check's tiers. */
export interface TierFinding {
  readonly weight: Weight;
  readonly limits: Limits;
  /** Probability that the true value lies inside these limits. */
  readonly inside: number;
}

/** What a check says of a snapshot (or of several: then it bears the newest). */
export interface Finding {
  /** `pack/check:subject@snapshot` */
  readonly id: string;
  readonly check: string;
  /** The kind of the check, such as `range`. */
  readonly kind: string;
  readonly checkTitle: string;
  readonly snapshot: string | null;
  readonly state: State | null;
  readonly subject: string;
  readonly channels: readonly string[];
  readonly verdict: Verdict;
  readonly weight: Weight;
  readonly current: boolean;
  readonly stale: boolean;
  /** Stale only because a battery was charged since: it is to be read again, and tells what is wrong all the same. */
  readonly charged: boolean;
  /** Newest of its state, whether stale or not: an `out` of these counts for exit and release. */
  readonly newest: boolean;
  readonly waived: Waiver | null;
  readonly measured: Measured | null;
  /** Reading and limits side by side are in one unit; null where the check judges no quantity. */
  readonly limits: Limits | null;
  /** Probability that the true value lies inside the limits; null where there is no quantity. */
  readonly inside: number | null;
  /** Coverage factor k of `measured.expanded`: 2, or Student's where few points were fitted; null where there is no quantity. */
  readonly coverage: number | null;
  /** Whether a guard band was kept; null where there is no quantity. */
  readonly decision: Decision | null;
  /** What `measured.expanded` is made of, before the coverage factor; null where there is no quantity. */
  readonly spread: Spread | null;
  /** Every tier that the quantity was held against, the heaviest first; empty where there is no quantity. */
  readonly tiers: readonly TierFinding[];
  /**
   * The chance that the true value lies below a low limit and above a high one: the largest over all tiers. Where there
   * is no quantity the verdict stands for it, 1 for out, 0.5 for too close and 0 for the rest, on its side, or on both
   * where it has none.
   */
  readonly outside: Beyond;
  /** The pack's plain words for this verdict; null where it has none. */
  readonly words: string | null;
  readonly side: 'low' | 'high' | null;
  readonly settle: TrendSettle | null;
  readonly missing: Missing | null;
  readonly remarks: readonly Remark[];
  /** The word that the check has for what it found (`opposed`, `blocked`); null where it has none. */
  readonly pattern: string | null;
  /** The chance of each word that the check has, in all 1; null where it has none. */
  readonly patternWeights: Readonly<Record<string, number>> | null;
  /** True for an `out` that a newer reading of the same state no longer shows, in like conditions and without work. */
  readonly intermittent: boolean;
  readonly basis: Basis;
  /** False for readings that are wanted only when a test asks for them. */
  readonly wanted: boolean;
  /** True where it is about its moment only: work makes it no longer current, and nothing needs reading again. */
  readonly moment: boolean;
  /** The states that the check judges. */
  readonly readIn: readonly State[];
}

export const weightOrder: Readonly<Record<Weight, number>> = { hold: 0, look: 1, note: 2 };

/**
 * True for an `out` that nothing accepted and nothing retook: it counts for the exit code and for release. One that
 * was only about its moment is over once it is stale.
 */
export const counts = ({ verdict, newest, waived, moment, stale }: Finding): boolean =>
  verdict === 'out' && newest && waived === null && !(moment && stale);

/** Findings by their check, in their order. */
export const findingsByCheck = (findings: readonly Finding[]): Map<string, Finding[]> => {
  const byCheck = new Map<string, Finding[]>();
  let check: string | null = null;
  let own: Finding[] = [];
  for (const finding of findings) {
    // Those of one check mostly stand together.
    if (finding.check !== check) {
      check = finding.check;
      own = byCheck.get(check) ?? [];
      byCheck.set(check, own);
    }
    own.push(finding);
  }
  return byCheck;
};
