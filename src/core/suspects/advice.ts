import type { Action } from './decision.ts';
import { missingFor } from './lacking.ts';
import { isLeastRisk, leastRisk } from './look-ahead.ts';
import { posteriorOfLogs } from './posterior.ts';
import type { Advice, AdviceCondition } from './ranking.ts';
import { shareMended, thresholdOf, wrongPartCost } from './stakes.ts';
import type { WeighedSuspects } from './weigh.ts';
import { marginals } from './worlds.ts';

/** A probability whose odds are multiplied by a factor. */
const oddsTimes = (p: number, factor: number): number => (p * factor) / (1 - p + p * factor);

/**
 * The evidence that the advice hangs on: rows that turn it where the leader's likelihood has half its odds and every
 * other's twice theirs. That is the worst that a factor of two on the likelihoods of one piece of evidence can do.
 */
const fragile = (
  leader: number,
  { worlds, logs, evidence }: WeighedSuspects,
  stands: (probabilities: readonly number[]) => boolean,
): string[] => {
  const priors = worlds.map(({ prior }) => prior);
  return evidence.pieces.flatMap(({ id }, changed) => {
    const turned = (logs[changed] ?? []).map((log, place) =>
      Math.log(oddsTimes(Math.exp(log), worlds[place]?.members.includes(leader) ? 0.5 : 2)),
    );
    return stands(posteriorOfLogs(priors, logs.with(changed, turned))) ? [] : [id];
  });
};

/**
 * The conditions that are not met and say something new: those that cost nothing to look at, else what the tests say.
 * That the advice could be turned is no news where it does not stand to begin with.
 */
export const failing = (conditions: readonly AdviceCondition[]): AdviceCondition[] => {
  const turned = ({ id, lacks }: AdviceCondition): boolean => id !== 'robust' || lacks.length > 0;
  const quick = conditions.filter((one) => one.id !== 'no-test-pays' && !one.met && turned(one));
  return quick.length > 0 ? quick : conditions.filter(({ met }) => !met);
};

/**
 * Whether the leading suspect's part may be ordered: all five conditions. It is the action with the least expected
 * loss; no test, alone or with one more, saves more than it costs; it is more probable than W / (W + E); what its
 * pack wants confirmed is on record; and no single piece of evidence, weighed half or double, would turn it.
 *
 * @param paying ids of the tests that save more than they cost
 * @param actions what can be done now; none where nothing is priced
 * @returns null where nothing is priced, or where something else leads, which has no part
 */
export const adviceOn = (
  weighed: WeighedSuspects,
  paying: readonly string[],
  actions: readonly Action[],
): Advice | null => {
  const { model, evidence, worlds, probabilities, order, stakes } = weighed;
  const { hypotheses } = model;
  const [leader = 0] = order;
  const suspected = hypotheses[leader];
  if (!suspected?.suspect || stakes === null) return null;
  const threshold = thresholdOf(suspected, stakes);
  const best = leastRisk(probabilities, actions).action.id;
  const over = (p: readonly number[]): boolean =>
    shareMended(suspected, hypotheses, marginals(worlds, p, hypotheses.length)) > threshold;
  const stands = (p: readonly number[]): boolean => over(p) && isLeastRisk(suspected.id, p, actions);
  const unconfirmed = missingFor(suspected, evidence);
  // Advice that does not stand as it is cannot be turned.
  // Nor need it stand against that where no part is ordered: to mend and to look again costs little.
  const turning = suspected.suspect.isPart && stands(probabilities) ? fragile(leader, weighed, stands) : [];
  const condition = (
    id: AdviceCondition['id'],
    lacks: readonly string[],
    met = lacks.length === 0,
  ): AdviceCondition => ({ id, met, lacks, threshold: id === 'over-threshold' ? threshold : null });
  const conditions: readonly AdviceCondition[] = [
    condition('least-risk', isLeastRisk(suspected.id, probabilities, actions) ? [] : [best]),
    condition('no-test-pays', paying),
    condition('over-threshold', [], over(probabilities)),
    condition('confirmed', unconfirmed),
    condition('robust', turning, stands(probabilities) && turning.length === 0),
  ];
  return {
    suspect: suspected.id,
    met: failing(conditions).length === 0,
    conditions,
    wrongPart: wrongPartCost(suspected, stakes),
    escalate: stakes.escalate,
    rate: stakes.rate,
    rateAssumed: stakes.assumed,
    worthFixing: threshold,
  };
};
