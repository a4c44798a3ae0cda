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

/** Why there is no judgement, and whether an older one no longer speaks for the state. */
export interface Refusal {
  readonly missing: Missing;
  /** Whether the reading was taken all the same, so that an older good one no longer speaks for this state. */
  readonly supersedes: boolean;
}

/** Why a snapshot's conditions rule a check out, and whether they do so by what they fail to say; or null. */
export const conditionsRuleOut = (
  { check, unless }: CheckPlan,
  { needs }: Fitting,
  { words }: Conditions,
): Refusal | null => {
  // What is only of its moment is not overtaken by another moment.
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

/** What there is no value of: one that was tried takes the word from an older one, one that is absent does not. */
export const notMeasured = (missing: Missing): Refusal => ({
  missing,
  supersedes: missing.why === 'jumping' || missing.why === 'could-not-be-taken',
});
