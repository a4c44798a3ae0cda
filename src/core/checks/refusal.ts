import type { Missing } from '../finding.ts';
import type { Conditions, Vehicle } from '../job.ts';
import type { CheckPlan, Fitting } from './check-plan.ts';

/** The reason why the vehicle itself rules a check out, or null. */
export const vehicleRulesOut = ({ only }: CheckPlan, vehicle: Vehicle): Missing | null => {
  for (const [what, wants] of only) {
    const is = what === 'sensor-signal' ? vehicle.sensorSignal : vehicle[what];
    if (is === null) return { why: 'vehicle-not-stated', what };
    if (!wants.includes(is)) return { why: 'vehicle-differs', what, wants: wants.join(' or '), is };
  }
  return null;
};

/** Why a snapshot gives no judgement, and whether it still replaces an older judgement of its state. */
export interface Refusal {
  readonly missing: Missing;
  /** True where the reading was taken, so that an older good judgement is no longer current for this state. */
  readonly supersedes: boolean;
}

/** Why a snapshot's conditions rule a check out, or null where they do not. */
export const conditionsRuleOut = (
  { check, unless }: CheckPlan,
  { needs }: Fitting,
  { words }: Conditions,
): Refusal | null => {
  // A check that is about its moment only is not superseded by a later moment.
  const supersedes = !check.moment;
  for (const [condition, wants] of needs) {
    const is = words[condition];
    if (is === undefined) return { missing: { why: 'condition-not-stated', condition, wants }, supersedes };
    if (is !== wants) return { missing: { why: 'condition-differs', condition, wants, is }, supersedes };
  }
  for (const [condition, not] of unless) {
    const is = words[condition];
    if (is === not) {
      return { missing: { why: 'condition-differs', condition, wants: `not ${not}`, is }, supersedes: false };
    }
  }
  return null;
};

/** A reading without a value: it supersedes an older one where somebody tried to take it, and not where it is absent. */
export const notMeasured = (missing: Missing): Refusal => ({
  missing,
  supersedes: ['jumping', 'could-not-be-taken', 'unbelievable'].includes(missing.why),
});
