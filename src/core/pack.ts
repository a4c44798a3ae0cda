import type { Act } from './acts.ts';
import type { Basis } from './finding.ts';
import type { ConditionName, Layout, State, Weight } from './job.ts';
import type { Per } from './key.ts';
import type { Accuracy } from './readings/instruments.ts';
import type { UnitName } from './readings/units.ts';
import type { Decision, Limits } from './readings/verdict.ts';
import type { Condition, LogPattern } from './steps/condition.ts';
import type { EvidenceGroup, Suspect, SuspectTerms, TestTerms } from './suspects/model.ts';

export interface Component {
  readonly id: string;
  readonly per: Per;
  /** Whether `per` is `corner`. */
  readonly perCorner: boolean;
  readonly title: string;
}

export interface Channel {
  readonly id: string;
  /** `either`: one reading for the vehicle, or one a corner. */
  readonly per: 'vehicle' | 'corner' | 'either';
  readonly title: string;
  readonly unit: UnitName;
  /** The instrument that usually reads it. */
  readonly by: string;
  /** What is assumed of the usual instrument for this channel alone; null where nothing else is. */
  readonly accuracy: Accuracy | null;
  /** Why no check judges it; null where one does. */
  readonly unjudged: string | null;
  /** Components that a reading depends on: work on one makes it stale. */
  readonly depends: readonly string[];
  /** All that a reading can come to, in `unit`, zero besides; null where the pack does not say. */
  readonly possible: Limits | null;
  /** How long it takes to read, for the steps that ask for readings. */
  readonly minutes: number;
  /** Texts of what to heed while reading it. */
  readonly cautions: readonly string[];
}

/** One weight with its limits; a check may have a look tier and a hold tier. */
export interface Tier {
  readonly weight: Weight;
  readonly limits: Limits;
  /** The states and layouts that it serves; null for all of the check's. */
  readonly states: readonly State[] | null;
  readonly layouts: readonly Layout[] | null;
  /** Conditions that must be stated so, beside the check's own. */
  readonly needs: Check['needs'];
  readonly says: Says;
  readonly basis: Basis;
}

export interface Says {
  readonly low?: string;
  readonly high?: string;
  readonly out?: string;
  readonly within?: string;
}

/** What a danger forbids, and when it is one. */
export interface DangerTerms {
  readonly forbids: readonly Act[];
  /** Only once a second reading shows it, too: the first may be a slip. */
  readonly afterRetake: boolean;
  /** Names of cautions; their texts once the packs are prepared. */
  readonly cautions: readonly string[];
}

/** A danger that a pack names: a check of any pack, or what the job says of the vehicle. */
export interface Danger extends DangerTerms {
  /** `pack/check`, or one of `statedDangers`. */
  readonly of: string;
}

/** Dangers that no check finds: the job states them. */
export const statedDangers = ['on-stops', 'shared-with-brakes'] as const;
export type StatedDanger = (typeof statedDangers)[number];

/** Tests and steps, of any pack, that involve an act. */
export interface ActUse {
  readonly act: Act;
  readonly tests: readonly string[];
  readonly steps: readonly string[];
}

/** Readings that cost little and decide much. */
export interface Ask {
  readonly id: string;
  readonly title: string;
  /** `read`: not taken since the last work. `again`: taken once only, and what they say together cannot be right. */
  readonly kind: 'read' | 'again';
  /** Base names of channels. */
  readonly channels: readonly string[];
  /** Conditions to state with them. */
  readonly conditions: readonly ConditionName[];
  readonly state: State;
  readonly when: Condition;
}

/** The part of a check that every kind shares. */
export interface Check {
  /** `pack/check` */
  readonly id: string;
  readonly kind: string;
  readonly title: string;
  readonly states: readonly State[];
  /** Conditions that must be stated so. */
  readonly needs: Partial<Readonly<Record<ConditionName, string>>>;
  /** Conditions that rule the check out when they are stated so. */
  readonly unless: Partial<Readonly<Record<ConditionName, string>>>;
  /** Vehicle data that the limits hold for: another value makes the check not taken. */
  readonly only: Partial<
    Readonly<Record<'system' | 'sensor-signal' | 'battery' | 'charging', readonly string[]>>
  >;
  /** Layouts that the check concerns at all; null for every one. */
  readonly layouts: readonly Layout[] | null;
  readonly decision: Decision;
  readonly basis: Basis;
  readonly says: Says;
  /** `in-test`: read only when a test asks for it, so that its absence is no step. */
  readonly wanted: 'always' | 'in-test';
  /** Only where the log has such an entry; null for every job. */
  readonly concerns: LogPattern | null;
  /** About its moment only: later work does not ask for it again. */
  readonly moment: boolean;
  /** An `out` that came and went without work is kept as intermittent. */
  readonly intermittent: boolean;
  /** What it finds makes some work unsafe; null where it does not. */
  readonly danger: DangerTerms | null;
  /** A reading that jumps counts with its middle, and half its span as scatter. */
  readonly takesSpans: boolean;
  /** The definition as data, to tell whether two versions of a pack mean the same by it. */
  readonly definition: string;
  /** Unit of the limits, for the vehicle's own figures; null where the check judges no quantity. */
  readonly unit: UnitName | null;
  /** Plain data, which the functions of the check's kind understand. */
  readonly parameters: object;
}

/** Cautions of a step that hang on what is worked on. */
export interface ComponentCautions {
  /** Base names of components. */
  readonly components: readonly string[];
  readonly cautions: readonly string[];
}

export interface Step {
  /** `pack/step` */
  readonly id: string;
  readonly name: string;
  /** Of a step that is made for a component: the step that it is made from (`repair`); else its own name. */
  readonly base: string;
  /** Made once for every confirmed fault, or for every component that was worked on; null for an ordinary step. */
  readonly each: 'fault' | 'work' | null;
  /** `{component}` stands for the component of a step that is made for each. */
  readonly title: string;
  /** A capability of the shop's equipment. */
  readonly needs: string | null;
  /** Null: every job. */
  readonly when: Condition | null;
  /** Names of steps that come first, where they are needed. */
  readonly after: readonly string[];
  /** The hold point that must be clear before it. */
  readonly behind: string | null;
  readonly answeredBy: readonly LogPattern[];
  readonly answeredIf: Condition | null;
  readonly undoneBy: readonly LogPattern[];
  /** What undoes it where snapshots show it after the step was done. */
  readonly undoneIf: Condition | null;
  readonly minutes: number;
  /** Minutes of waiting beside the work. */
  readonly elapsed: number;
  /** Days after which it is due, for one that is listed and holds nothing; null for all others. */
  readonly recheckDays: number | null;
  /** Whether it waits for access that is paid for, where its equipment wants that. */
  readonly paidAccess: boolean;
  /** What to do and look at, a line each. */
  readonly points: readonly string[];
  readonly cautions: readonly string[];
  readonly cautionsFor: readonly ComponentCautions[];
  readonly acts: readonly Act[];
}

/** Something that a technician can do to tell parts apart, and what it can find. */
export interface Test extends TestTerms {
  readonly id: string;
  /** Done at one corner or on one axle, which the log names: `arm-by-hand.LR`, `arm-angles.rear`. */
  readonly per: Per;
  /** Whether `per` is `corner`. */
  readonly perCorner: boolean;
  readonly title: string;
  readonly minutes: number;
  readonly outcomes: readonly { readonly id: string; readonly title: string }[];
  readonly points: readonly string[];
  readonly cautions: readonly string[];
  readonly acts: readonly Act[];
}

export interface HoldPoint {
  readonly id: string;
  readonly pack: string;
  readonly title: string;
  /** Null: every job. */
  readonly when: Condition | null;
  readonly clearWhen: Condition;
  readonly cautions: readonly string[];
}

/** A text of what to heed, by the name that steps, tests and channels use. */
export interface Caution {
  readonly id: string;
  readonly text: string;
}

/** The texts of some of a pack's cautions. */
export const cautionTexts = (ids: readonly string[], cautions: readonly Caution[]): string[] =>
  ids.map((id) => cautions.find((one) => one.id === id)?.text ?? id);

/** A check that is called otherwise than in an earlier version: `pack/check`. */
export interface Rename {
  readonly from: string;
  readonly to: string;
}

/** A rule pack as read: plain data that JSON can hold and give back unchanged. */
export interface Pack {
  readonly id: string;
  readonly version: string;
  readonly sha256: string;
  readonly title: string;
  readonly changes: string;
  readonly components: readonly Component[];
  readonly channels: readonly Channel[];
  readonly checks: readonly Check[];
  readonly steps: readonly Step[];
  readonly holdPoints: readonly HoldPoint[];
  readonly tests: readonly Test[];
  readonly evidence: readonly EvidenceGroup[];
  readonly suspects: readonly Suspect[];
  /** Null where the pack has no suspects. */
  readonly suspectTerms: SuspectTerms | null;
  readonly renames: readonly Rename[];
  readonly cautions: readonly Caution[];
  readonly dangers: readonly Danger[];
  readonly actUses: readonly ActUse[];
  readonly asks: readonly Ask[];
  /** Checks, of any pack, that take a night: after work they hold nothing, and are looked at again later. */
  readonly rechecks: readonly string[];
  /** Readings that hold the release whatever the job touches; null where the pack does not say. */
  readonly always: readonly string[] | null;
}
