import type { Basis, Finding } from '../finding.ts';
import type { Flaw } from '../flaw.ts';
import type { Channel, Says, Tier } from '../pack.ts';
import type { UnitName } from '../readings/units.ts';
import type { CheckContext } from './check-context.ts';
import type { CheckPlan } from './check-plan.ts';
import type { Shape, Subject, WasRead } from './subjects.ts';

/** A JSON Schema fragment; plain data, compiled elsewhere. */
export type Schema = Readonly<Record<string, unknown>>;

/** A check's own map in its pack, as plain values. */
export type RawParameters = Readonly<Record<string, unknown>>;

/** What reading a check's parameters may ask for and report to. */
export interface KindScope {
  /** Channels that the pack declares, by base name. */
  readonly channels: ReadonlyMap<string, Channel>;
  /** Names of the pack's checks. */
  readonly checks: readonly string[];
  /** The check's own basis and words, which tiers inherit. */
  readonly basis: Basis;
  readonly says: Says;
  /** Reports a flaw at a path below the check. */
  readonly flaw: (flaw: Flaw) => void;
}

/**
 * A kind of check: the schema of its parameters, how they are read, and how they judge. One file a kind; `index.ts`
 * lists them. A kind holds functions only. What it reads from a pack is plain data, which the check carries.
 */
export interface Kind<Parameters extends object = object> {
  readonly kind: string;
  /** One sentence: what it judges. */
  readonly about: string;
  readonly properties: Readonly<Record<string, Schema>>;
  readonly required: readonly string[];
  /** True for a kind that is judged once the steps are known, since it is about them. */
  readonly afterSteps: boolean;
  /** Reads parameters that fit the schema already; what a schema cannot say is reported as flaws. */
  read(raw: RawParameters, scope: KindScope): Parameters;
  /** One line a limit, for `packs show`. */
  limits(parameters: Parameters): readonly string[];
  /** Unit of the limits, for the vehicle's own figures; null where the kind judges no quantity. */
  unit(parameters: Parameters): UnitName | null;
  /** The tiers that judge; none where the kind judges no reading. */
  tiers(parameters: Parameters): readonly Tier[];
  /** What a check is about on vehicles of one shape; none where only the job says. */
  subjects(parameters: Parameters, shape: Shape, wasRead: WasRead): readonly Subject[];
  judge(plan: CheckPlan, parameters: Parameters, context: CheckContext): Finding[];
}

/** The parts of a kind that judges no reading. */
export const judgesNoReading = { unit: () => null, tiers: () => [], subjects: () => [] } as const;

/** A quantity in a pack that a judgement depends on: a text with its unit. */
export const quantitySchema: Schema = {
  type: ['string', 'number'],
  'x-expected': 'a quantity such as 0.25 V',
};

/** A quantity that only words depend on, such as the pressure whose loss is put as a time: no verdict turns at it. */
export const toldSchema: Schema = { ...quantitySchema };

/** A quantity that has no unit, such as a specific gravity. */
export const unitlessSchema: Schema = { ...quantitySchema, 'x-expected': 'a number such as 1.265' };
