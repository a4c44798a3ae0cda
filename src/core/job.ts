import { type Axle, axles, type Corner, corners, sides } from './corner.ts';
import { type HeightTable, heightBases } from './readings/heights.ts';
import type { Instrument } from './readings/instruments.ts';
import type { TypedValue } from './readings/parse-quantity.ts';
import type { Limits } from './readings/verdict.ts';
import type { Wire } from './readings/wire.ts';

/** Milliseconds since 1970-01-01T00:00Z. The core only compares instants; zones and printing are others' work. */
export type Instant = number;

/** A point in time as typed, with the span that its spelling leaves open (a minute, a second). */
export interface Stamp {
  readonly at: Instant;
  /** Place value in milliseconds: 60 000 for `08:40`, 1 000 for `08:40:10`. */
  readonly resolution: number;
}

export const states = ['rest', 'key-on', 'cranking', 'running', 'driving'] as const;
export type State = (typeof states)[number];

export const isState = (text: string): text is State => states.some((state) => state === text);

export const layouts = ['four-corner-air', 'rear-air-assist', 'four-corner-sensors'] as const;
export type Layout = (typeof layouts)[number];

/** The corners that a layout has unless a job says otherwise. */
export const fittedBy: Readonly<Record<Layout, readonly Corner[]>> = {
  'four-corner-air': corners,
  'four-corner-sensors': corners,
  'rear-air-assist': ['LR', 'RR'],
};

/** What may be said of a vehicle in one of a few words. */
export const vehicleWords = {
  system: ['12 V', '24 V'],
  battery: ['flooded', 'agm', 'efb', 'gel', 'lithium'],
  charging: ['fixed', 'managed'],
  'sensor-signal': ['analogue', 'pwm', 'digital'],
} as const;

/** Yes or no as a file says it: a word, since what YAML takes for true differs from version to version. */
const yesNo = ['yes', 'no'] as const;

const axleNames = Object.keys(axles) as Axle[];
const sideNames = Object.keys(sides) as (keyof typeof sides)[];

/** Areas of the vehicle that earlier work may name beside components. */
export const workAreas = [...corners, ...axleNames, ...sideNames, 'harness'] as const;

/** What the driver may say, in one of a few words each. */
export const symptomWords = {
  where: [...corners, ...axleNames, ...sideNames, 'all'],
  sits: ['low', 'high', 'uneven'],
  when: ['always', 'after-standing', 'on-the-road', 'wet', 'cold', 'loaded'],
  moves: ['never', 'slowly', 'too-far'],
  rides: ['hard', 'bouncy'],
  noise: ['hiss', 'runs-long', 'knock'],
  /** Whether somebody of the shop has seen it, too. */
  checked: yesNo,
} as const;
export type SymptomPart = keyof typeof symptomWords;

/** One thing that the driver says; null where it says nothing of that part. */
export type Symptom = Readonly<Record<SymptomPart, string | null>>;

export const codeMeanings = [
  'signal-range',
  'circuit-open',
  'circuit-short',
  'supply-range',
  'communication',
  'not-programmed',
  'not-configured',
  'not-calibrated',
  'pressure',
  'over-temperature',
  'internal-fault',
  'other',
] as const;
export type CodeMeaning = (typeof codeMeanings)[number];

export const codeStatuses = ['present', 'pending', 'stored', 'history'] as const;
export type CodeStatus = (typeof codeStatuses)[number];

/** The corner or circuit that the text of a code names. */
export const codePlaces = [...corners, ...axleNames, 'tank', 'compressor', 'supply'] as const;
export type CodePlace = (typeof codePlaces)[number];

/** Which module stores a code. */
export const codeStores = ['suspension', 'other'] as const;
export type CodeStore = (typeof codeStores)[number];

export const lampStates = ['on', 'off', 'flashing', 'no-self-test', 'not-fitted'] as const;
export type LampState = (typeof lampStates)[number];

export const verbs = [
  'tested',
  'inspected',
  'repaired',
  'replaced',
  'disconnected',
  'programmed',
  'configured',
  'calibrated',
  'adjusted',
  'charged',
  'inflated',
  'cleared',
  'drove',
  'completed',
  'skipped',
  'ordered',
  'received',
  'authorised',
  'declined',
  'waiting',
  'passed-on',
  'released',
  'closed',
  'noted',
] as const;
export type Verb = (typeof verbs)[number];

/** The verbs that change the vehicle: they make readings stale and undo steps. */
export const workVerbs: readonly Verb[] = [
  'repaired',
  'replaced',
  'disconnected',
  'programmed',
  'configured',
  'calibrated',
  'adjusted',
  'charged',
  'inflated',
];

/** The verbs that put something right; the rest of the work only disturbs it. */
export const repairVerbs: readonly Verb[] = ['repaired', 'replaced', 'adjusted', 'charged', 'inflated'];

/** The verbs that wait for a hold point: the order of a part, the release, the end of the job. */
export const heldVerbs: readonly Verb[] = ['ordered', 'released', 'closed'];

/** How a job ends. */
export const closings = ['repaired', 'declined', 'passed-on', 'towed', 'scrapped'] as const;
export type Closing = (typeof closings)[number];

/** What an eye can say of a component. */
export const sights = ['fault-seen', 'nothing-seen'] as const;

/** Where the two leads of a meter were, in the technician's words. */
export interface Leads {
  readonly from: string;
  readonly to: string;
}

export type Reading =
  | {
      readonly kind: 'values';
      readonly values: readonly TypedValue[];
      readonly by: string;
      readonly leads?: Leads;
    }
  /** A signal that jumps between two values while nothing moves. */
  | {
      readonly kind: 'span';
      readonly low: TypedValue;
      readonly high: TypedValue;
      readonly by: string;
      readonly leads?: Leads;
    }
  | { readonly kind: 'untaken'; readonly why: string };

/** The conditions that are words, each from a closed list. */
export const conditionWords = {
  floor: ['level', 'sloped'],
  load: ['empty', 'loaded'],
  levelling: ['active', 'disabled', 'faulted'],
  maintainer: ['on', 'off'],
  'air-system': ['closed', 'open'],
  'surface-charge': ['present', 'taken-off'],
  doors: ['shut', 'open'],
  'heavy-load': ['on', 'off'],
  idle: ['normal', 'raised'],
  compressor: ['on', 'off'],
  /** Which of the driver's or the workshop's modes levelling is in. */
  mode: ['normal', 'transport', 'jacking', 'kneeling', 'raised', 'lowered', 'off'],
  /** Whether the body rests on its stops. */
  'on-stops': yesNo,
  /** What the tape measured heights from. */
  'heights-from': heightBases,
} as const;
export type ConditionName = keyof typeof conditionWords;

export interface Conditions {
  readonly words: Partial<Readonly<Record<ConditionName, string>>>;
  /** °C */
  readonly air: TypedValue | null;
  /** Hours since the key went off and the charger stopped. */
  readonly rested: TypedValue | null;
  /** Hours since every module went to sleep. */
  readonly asleep: TypedValue | null;
  /** kPa */
  readonly barometer: TypedValue | null;
  /** m */
  readonly altitude: TypedValue | null;
}

export interface TroubleCode {
  readonly code: string;
  /** As typed, or as the status byte says. */
  readonly status: CodeStatus;
  /** The status byte as typed, a bit mask. */
  readonly mask: number | null;
  readonly means: CodeMeaning | null;
  /** The failure type byte after the dash, as two hex digits. */
  readonly failureType: string | null;
  readonly at: CodePlace | null;
  readonly storedIn: CodeStore | null;
  /** `test`: it came while a test had that circuit open. */
  readonly setBy: 'test' | null;
}

export interface Snapshot {
  readonly id: string;
  readonly stamp: Stamp;
  readonly state: State;
  readonly conditions: Conditions;
  /** By channel key (`position.LF`), values in the channel's unit. */
  readonly readings: ReadonlyMap<string, Reading>;
  readonly lamp: LampState | null;
  /** Null where no code list was read; empty where it was read and held nothing. */
  readonly codes: readonly TroubleCode[] | null;
}

export interface LogEntry {
  readonly stamp: Stamp;
  /** Position in the file, which orders entries of one time. */
  readonly order: number;
  readonly did: Verb;
  readonly what: string | null;
  readonly failed: boolean;
  readonly found: string | null;
  readonly waitsFor: string | null;
  readonly note: string | null;
  /** How the job ended, for `closed`. */
  readonly closing: Closing | null;
  /** To whom, for `passed-on`. */
  readonly to: string | null;
  readonly by: string | null;
  /** Why, for `skipped` and for a job that is closed without a repair. */
  readonly reason: string | null;
  /** Why it was written although its hold point was not clear; null where it was. */
  readonly despite: string | null;
}

export interface ServiceData {
  /** `pack/check` */
  readonly check: string;
  /** A channel key or subject; null for every subject of the check. */
  readonly of: string | null;
  readonly limits: Limits;
  /** The tier that it replaces; the tightest where absent. */
  readonly weight: Weight | null;
  readonly source: string;
}

export type Weight = 'hold' | 'look' | 'note';

/** What the plate of the vehicle or of its compressor says of the air system. */
export interface AirData {
  /** psi */
  readonly ratedPressure: number | null;
  /** l */
  readonly tankVolume: number | null;
  /** A */
  readonly ratedCurrent: number | null;
  readonly sharedWithBrakes: boolean;
}

export interface Vehicle {
  readonly name: string;
  readonly layout: Layout;
  readonly fitted: readonly Corner[];
  readonly system: string;
  readonly battery: string | null;
  readonly charging: string | null;
  readonly sensorSignal: string;
  /** Null where the job does not state it. */
  readonly sensorSense: Partial<Readonly<Record<Corner, 'rising' | 'falling'>>> | null;
  readonly sensorGainEqual: boolean;
  readonly serviceData: readonly ServiceData[];
  /** Volts to millimetres, for the corners where somebody measured both. */
  readonly heights: Partial<Readonly<Record<Corner, HeightTable>>>;
  /** By the channel that reads its drop. */
  readonly wires: ReadonlyMap<string, Wire>;
  readonly air: AirData;
  readonly tankFitted: boolean;
}

export interface Waiver {
  /** `pack/check` or `pack/check:subject` */
  readonly finding: string;
  readonly reason: string;
  readonly by: string;
  /** The last day as typed, and the first instant that it no longer covers. */
  readonly until: string;
  readonly ends: Instant;
  /** True where the check's definition is not the one that was accepted. */
  readonly isVoid: boolean;
  /** True once `ends` has come; set when the job is judged. */
  readonly ended: boolean;
}

export interface Authorisation {
  readonly at: Instant;
  readonly amount: number;
}

export interface CostLine {
  readonly kind: 'part' | 'labour' | 'access' | 'other';
  readonly what: string;
  readonly amount: number | null;
  readonly minutes: number | null;
  readonly from: Instant | null;
  /** The end of an access window. */
  readonly ends: Instant | null;
}

export interface Costs {
  readonly currency: string | null;
  readonly labourRate: number | null;
  readonly authorised: readonly Authorisation[];
  readonly lines: readonly CostLine[];
}

/** What access to a piece of equipment costs, and how long it lasts (an ISO 8601 duration, as typed). */
export interface AccessTerms {
  readonly amount: number;
  readonly lasts: string | null;
}

/** What a piece of the shop's equipment can do, and what access to it costs where it is paid for. */
export interface Equipment {
  readonly name: string;
  readonly does: readonly string[];
  readonly access: AccessTerms | null;
}

/** What a shop allows without asking; amounts are in its currency. */
export interface ShopTerms {
  /** Up to this a part may be ordered though its hold point is not clear: then that is a reminder. */
  readonly orderHold: number;
  /** How far a cost may be above what was authorised. */
  readonly tolerance: number;
  /** Somebody who has authorised every job up to an amount; null where nobody has. */
  readonly standing: { readonly by: string; readonly upTo: number } | null;
  /** An hour of waiting; null where the packs say. */
  readonly downtime: number | null;
}

/** The terms of a shop that says nothing. Judgement. */
export const usualTerms: ShopTerms = { orderHold: 150, tolerance: 0, standing: null, downtime: null };

export interface Job {
  readonly id: string;
  readonly title: string;
  readonly status: 'open' | 'waiting' | 'closed';
  readonly opened: Instant;
  readonly zone: string;
  readonly vehicle: Vehicle;
  readonly symptoms: readonly Symptom[];
  /** Components (`sensor.RR`) and areas (`front`, `harness`) that somebody worked on before this visit. */
  readonly recentWork: readonly string[];
  readonly instruments: readonly Instrument[];
  readonly snapshots: readonly Snapshot[];
  readonly log: readonly LogEntry[];
  readonly costs: Costs;
  readonly waivers: readonly Waiver[];
  /** Null where no shop file names any. */
  readonly equipment: readonly Equipment[] | null;
  readonly terms: ShopTerms;
}
