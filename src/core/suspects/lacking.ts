import { keyOf } from '../key.ts';
import {
  isConfirmed,
  isSeenFaulty,
  missingConfirmations,
  neverBySight,
  testsToConfirm,
} from './confirmed.ts';
import type { Action } from './decision.ts';
import type { Evidence } from './evidence/evidence.ts';
import type { Hypothesis } from './hypotheses.ts';
import { isLeastRisk } from './look-ahead.ts';
import { shareMended, thresholdOf } from './stakes.ts';
import type { WeighedSuspects } from './weigh.ts';

/** Confirmations of a suspect that lack; a fault that an eye saw confirms its component. */
export const missingFor = ({ suspect, place }: Hypothesis, evidence: Evidence): readonly string[] => {
  if (suspect === null) return [];
  if (suspect.component !== neverBySight && isSeenFaulty(suspect.component, place, evidence)) return [];
  return missingConfirmations(suspect.confirm, place, evidence);
};

/** Tests that can be done now, by their ids. */
type CanDo = (id: string) => boolean;

/** What would confirm a suspect: for each confirmation that lacks the tests that can be done, else a look at it. */
const waysToConfirm = (
  { suspect, place }: Hypothesis,
  evidence: Evidence,
  canDo: CanDo,
): readonly string[] => {
  if (suspect === null) return [];
  const look = `inspected ${keyOf(suspect.component, place)}`;
  return suspect.confirm
    .filter((one) => !isConfirmed(one, place, evidence))
    .flatMap((one) => {
      const tests = testsToConfirm(one, place, evidence).filter(canDo);
      return tests.length > 0 || suspect.component === neverBySight ? tests : [look].filter(canDo);
    });
};

/**
 * How probable it is that a test has to be done in any case: that the fault is one whose repair must be confirmed by it.
 *
 * @returns by the test's id; what no suspect asks for is not in it
 */
export const neededAnyway = ({ model, evidence, shares }: WeighedSuspects): ReadonlyMap<string, number> => {
  const needed = new Map<string, number>();
  for (const [at, one] of model.hypotheses.entries())
    for (const id of new Set(waysToConfirm(one, evidence, (test) => !evidence.recorded.has(test))))
      needed.set(id, Math.min(1, (needed.get(id) ?? 0) + (shares[at] ?? 0)));
  return needed;
};

/**
 * The tests that would confirm the leading suspect, where acting on it is the least risk and it is over its threshold:
 * then nothing but these stands between it and its repair.
 *
 * @param actions what can be done now; none where nothing is priced
 */
export const lackingConfirmations = (
  { model, evidence, probabilities, shares, order, stakes }: WeighedSuspects,
  actions: readonly Action[],
  canDo: CanDo,
): readonly string[] => {
  const [leader = 0] = order;
  const suspected = model.hypotheses[leader];
  if (!suspected?.suspect || stakes === null) return [];
  if (shareMended(suspected, model.hypotheses, shares) <= thresholdOf(suspected, stakes)) return [];
  if (!isLeastRisk(suspected.id, probabilities, actions) || missingFor(suspected, evidence).length === 0)
    return [];
  return waysToConfirm(suspected, evidence, canDo);
};
