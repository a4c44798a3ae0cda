import { isSeenFaulty, missingConfirmations, neverBySight } from './confirmed.ts';
import type { Evidence } from './evidence/evidence.ts';
import type { Hypothesis } from './hypotheses.ts';
import { leastRisk } from './look-ahead.ts';
import { actionsOf, shareMended, thresholdOf } from './stakes.ts';
import type { WeighedSuspects } from './weigh.ts';

/** Confirmations of a suspect that lack; a fault that an eye saw confirms its component. */
export const missingFor = ({ suspect, place }: Hypothesis, evidence: Evidence): readonly string[] => {
  if (suspect === null) return [];
  if (suspect.component !== neverBySight && isSeenFaulty(suspect.component, place, evidence)) return [];
  return missingConfirmations(suspect.confirm, place, evidence);
};

/**
 * The confirmations that the leading suspect lacks, where acting on it is the least risk and it is over its threshold:
 * then nothing but these stands between it and its repair.
 */
export const lackingConfirmations = (weighed: WeighedSuspects): readonly string[] => {
  const { model, evidence, worlds, probabilities, shares, order, stakes } = weighed;
  const [leader = 0] = order;
  const suspected = model.hypotheses[leader];
  if (!suspected?.suspect || stakes === null) return [];
  if (shareMended(suspected, model.hypotheses, shares) <= thresholdOf(suspected, stakes)) return [];
  const best = leastRisk(probabilities, actionsOf(model.hypotheses, worlds, stakes)).action.id;
  return best === suspected.id ? missingFor(suspected, evidence) : [];
};
