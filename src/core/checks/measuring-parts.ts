import type { Missing } from '../finding.ts';
import type { Snapshot } from '../job.ts';
import type { Check, Tier } from '../pack.ts';
import type { UnitName } from '../readings/units.ts';
import type { CheckContext } from './check-context.ts';
import type { KindScope, RawParameters, Schema } from './kind.ts';
import type { Occasion, Outcome } from './outcome.ts';
import type { Shape, Subject, WasRead } from './subjects.ts';

/** The parameters that every kind has which judges readings. */
export interface Measured {
  /** Null where it judges no quantity. */
  readonly unit: UnitName | null;
  readonly tiers: readonly Tier[];
}

/** The parts that differ from kind to kind among those that judge readings. */
export interface MeasuringParts<Parameters extends Measured> {
  readonly kind: string;
  readonly about: string;
  readonly properties: Readonly<Record<string, Schema>>;
  readonly required: readonly string[];
  read(raw: RawParameters, scope: KindScope): Parameters;
  /** Lines for `packs show`; those of the tiers where absent. */
  limits?(parameters: Parameters): readonly string[];
  subjects(parameters: Parameters, shape: Shape, wasRead: WasRead): readonly Subject[];
  /** Why nothing can be measured, whatever the snapshot; asked once a subject, to spare asking for each snapshot. */
  beforehand?(subject: Subject, context: CheckContext, check: Check): Missing | null;
  /** Groups of snapshots to judge; each fitting snapshot alone where absent. */
  occasions?(
    fitting: readonly Snapshot[],
    subject: Subject,
    context: CheckContext,
    parameters: Parameters,
  ): readonly Occasion[];
  /** Why there is nothing to say where snapshots fit and none of them makes an occasion. */
  withoutOccasion?(
    fitting: readonly Snapshot[],
    subject: Subject,
    check: Check,
    parameters: Parameters,
  ): Missing;
  measure(
    occasion: Occasion,
    subject: Subject,
    context: CheckContext,
    check: Check,
    parameters: Parameters,
  ): Outcome;
}
