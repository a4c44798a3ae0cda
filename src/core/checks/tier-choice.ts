import { weightOrder } from '../finding.ts';
import type { State, Weight } from '../job.ts';
import type { Check, Tier } from '../pack.ts';
import { type Judgement, judge, margin, type Verdict } from '../readings/verdict.ts';
import type { CheckContext } from './check-context.ts';
import { fittingTiers } from './check-plan.ts';
import { withServiceData } from './service-data.ts';
import type { Subject } from './subjects.ts';

export interface TierResult extends Judgement {
  readonly tier: Tier;
}

/** How far inside its nearest limit a tier has a value. */
const room = (tier: Tier, value: number): number => margin(value, tier.limits) ?? Number.POSITIVE_INFINITY;

/**
 * The heaviest tier that is out, else the heaviest too close to call, else within against the tightest: the one whose
 * limit is nearest, of equals the lightest.
 *
 * @param tiers the heaviest first
 */
export const decide = (
  tiers: readonly Tier[],
  value: number,
  expanded: number,
  { decision }: Check,
): TierResult | undefined => {
  let doubtful: TierResult | undefined;
  let tightest: Tier | undefined;
  for (const tier of tiers) {
    const { verdict, side } = judge(value, expanded, tier.limits, decision);
    if (verdict === 'out') return { tier, verdict, side };
    if (verdict === 'too-close') doubtful ??= { tier, verdict, side };
    else if (tightest === undefined || room(tier, value) <= room(tightest, value)) tightest = tier;
  }
  return doubtful ?? (tightest && { tier: tightest, verdict: 'within', side: null });
};

const severity: Readonly<Record<TierResult['verdict'], number>> = { out: 0, 'too-close': 1, within: 2 };

/**
 * The worse of several values of one subject: the heavier verdict, and of two alike the one that comes nearer to a
 * limit or goes further beyond it.
 */
export const worst = <T extends { readonly value: number; readonly expanded: number }>(
  values: readonly [T, ...T[]],
  tiers: readonly Tier[],
  state: State,
  subject: Subject,
  context: CheckContext,
  check: Check,
): T => {
  const own = withServiceData(
    fittingTiers(tiers, state, context.job.vehicle.layout),
    check,
    subject,
    context,
  ).tiers;
  const ranked = values.map((one) => {
    const result = decide(own, one.value, one.expanded, check);
    const room = result ? margin(one.value, result.tier.limits) : null;
    return {
      one,
      rank: result ? [severity[result.verdict], weightOrder[result.tier.weight]] : [3, 3],
      room: room ?? Number.POSITIVE_INFINITY,
    };
  });
  const [first] = ranked.sort(
    (a, b) =>
      (a.rank[0] ?? 0) - (b.rank[0] ?? 0) ||
      (a.rank[1] ?? 0) - (b.rank[1] ?? 0) ||
      (a.room < b.room ? -1 : 1),
  );
  return first?.one ?? values[0];
};

/** A weight that is no heavier than `cap`. */
export const capped = (weight: Weight, cap: Weight | undefined): Weight =>
  cap !== undefined && weightOrder[weight] < weightOrder[cap] ? cap : weight;

export const wordsFor = (
  says: Tier['says'],
  verdict: Verdict,
  side: 'low' | 'high' | null,
): string | null => {
  if (verdict === 'within') return says.within ?? null;
  const bySide = side === 'low' ? says.low : says.high;
  return bySide ?? says.out ?? null;
};
