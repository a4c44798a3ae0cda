/** The words that packs use for how often something shows. Judgement, from memory; numbers are allowed in their place. */
export const strengths = {
  always: 0.97,
  usually: 0.85,
  often: 0.65,
  sometimes: 0.35,
  rarely: 0.1,
  never: 0.02,
} as const;

/** Nothing is quite certain and nothing quite impossible: likelihoods stay between these. */
export const clampLikelihood = (p: number): number => Math.min(0.98, Math.max(strengths.never, p));

/** What is not listed shows everything now and then, and nothing always. */
export const clampBackground = (p: number): number => Math.min(0.9, Math.max(0.1, p));

/**
 * How often a group shows something that no fault of the vehicle explains, shared among all that it can show, where its
 * pack does not say so itself (`by-chance`: less for codes, far more for what drivers say). Judgement: two simulated fleets of healthy vehicles raised no alarm in 60 000.
 */
export const falseAlarm = 0.01;

/** How often a reading was misread or mistyped: then any of the possible values may stand there. */
const slipRate = 0.02;

/**
 * A likelihood with slips in it: (1 − s)·p + s·q.
 *
 * @param likelihood P(observed | suspect) without slips
 * @param byChance P(observed | slip): drawn blindly from all that is possible, or as rarely as the group shows it by chance
 */
export const withSlips = (likelihood: number, byChance: number): number =>
  (1 - slipRate) * likelihood + slipRate * byChance;
