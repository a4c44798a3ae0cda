import type { Finding, Remark, TierFinding } from '../finding.ts';
import type { Check, Tier } from '../pack.ts';
import { settle } from '../readings/settle.ts';
import { usualFactor } from '../readings/student.ts';
import { beyond, distributionOf, insideOf, type Limits } from '../readings/verdict.ts';
import { mends, staleSince } from '../steps/staleness.ts';
import type { CheckContext } from './check-context.ts';
import type { Fitting } from './check-plan.ts';
import { findingOf, type Place } from './finding-base.ts';
import { newestOf, type Occasion, type Quantity, type Recognised } from './outcome.ts';
import { withServiceData } from './service-data.ts';
import type { Subject } from './subjects.ts';
import { capped, decide, wordsFor } from './tier-choice.ts';

/** What a judgement rests on, and where it stands among those of its subject. */
export interface Judgeable {
  readonly check: Check;
  readonly context: CheckContext;
  readonly subject: Subject;
  readonly occasion: Occasion;
  readonly fitting: Fitting;
  /** No newer judgement of its state. */
  readonly first: boolean;
  /** A newer reading of its state could not be judged. */
  readonly refused: boolean;
}

/**
 * Whether a finding is the newest of its state, and whether it is stale. After a newer reading that could not be judged,
 * a good finding is no longer the newest, since the value may have changed; a bad one still is.
 */
const placeOf = (
  { context, occasion, first, refused }: Judgeable,
  channels: readonly string[],
  verdict: 'within' | 'out' | 'too-close',
): Place => {
  const snapshot = newestOf(occasion);
  const oldest = occasion[0] ?? snapshot;
  const isStale = (works: CheckContext['works']): boolean =>
    staleSince(works, context.channels, channels, oldest.stamp.at) !== null;
  const stale = isStale(context.works);
  return {
    snapshot,
    newest: first && !(refused && verdict === 'within'),
    stale,
    charged: stale && !isStale(context.works.filter(mends)),
  };
};

const recognised = (
  judgeable: Judgeable,
  { tiers: [tier], verdict, remarks, pattern, patternWeights }: Recognised,
): Finding | null => {
  if (!tier) return null;
  const { check, context, subject } = judgeable;
  const { channels } = subject;
  return findingOf(check, context, subject.name, placeOf(judgeable, channels, verdict), {
    channels,
    verdict,
    weight: tier.weight,
    missing: null,
    words: wordsFor(tier.says, verdict, null),
    remarks,
    pattern,
    patternWeights,
    basis: tier.basis,
  });
};

const nothingToRemark: readonly Remark[] = [];

const settled = (outcome: Quantity, limits: Limits) =>
  outcome.settle?.(limits) ??
  settle(outcome.value, outcome.spread, limits, outcome.scatterFrom, outcome.count);

/** A quantity against every tier, its weight no heavier than the outcome allows. */
const againstAll = (
  { value, spread, cap }: Quantity,
  coverage: number,
  tiers: readonly Tier[],
): Pick<Finding, 'tiers' | 'outside'> => {
  const distribution = distributionOf(coverage);
  const against: TierFinding[] = [];
  let low = 0;
  let high = 0;
  for (const { weight, limits } of tiers) {
    const chances = beyond(value, spread.total, limits, distribution);
    low = Math.max(low, chances.low);
    high = Math.max(high, chances.high);
    against.push({ weight: capped(weight, cap), limits, inside: insideOf(chances) });
  }
  return { tiers: against, outside: { low, high } };
};

const compared = (judgeable: Judgeable, outcome: Quantity): Finding | null => {
  const { check, context, subject, fitting } = judgeable;
  const { value, spread } = outcome;
  const coverage = outcome.factor ?? usualFactor;
  const expanded = coverage * spread.total;
  const own = withServiceData(fitting.tiers, check, subject, context);
  const best = decide(own.tiers, value, expanded, check);
  if (!best) return null;
  const { tier, verdict, side } = best;
  const { limits, basis } = tier;
  const { tiers, outside } = againstAll(outcome, coverage, own.tiers);
  const channels = outcome.channels ?? subject.channels;
  const remarks = outcome.remarks ?? nothingToRemark;
  return findingOf(
    check,
    context,
    subject.name,
    placeOf(judgeable, channels, verdict),
    {
      channels,
      verdict,
      weight: capped(tier.weight, outcome.cap),
      missing: null,
      words: wordsFor(tier.says, verdict, side),
      remarks: own.used.has(tier)
        ? [...remarks, { kind: 'service-data', source: basis.source ?? '' }]
        : remarks,
      basis,
    },
    {
      measured: { value, unit: outcome.unit, expanded },
      limits,
      inside: tiers[own.tiers.indexOf(tier)]?.inside ?? null,
      coverage,
      decision: check.decision,
      spread,
      tiers,
      outside,
      side,
      settle: verdict === 'too-close' ? settled(outcome, limits) : null,
    },
  );
};

/** The finding that an occasion comes to, or null where no tier judges it. */
export const judged = (judgeable: Judgeable, outcome: Quantity | Recognised): Finding | null =>
  'verdict' in outcome ? recognised(judgeable, outcome) : compared(judgeable, outcome);
