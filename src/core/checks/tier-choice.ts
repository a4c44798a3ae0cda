import { weightOrder } from '../finding.ts';
import type { State, Weight } from '../job.ts';
import type { Check, Scene, Tier } from '../pack.ts';
import { type Judgement, judge, margin, type Verdict } from '../readings/verdict.ts';
import type { Subject } from './measuring.ts';

/** Tiers that serve a state and layout, the heaviest first. */
export const fittingTiers = (tiers: readonly Tier[], state: State, scene: Scene): Tier[] =>
  tiers
    .filter((tier) => tier.states === null || tier.states.includes(state))
    .filter((tier) => tier.layouts === null || tier.layouts.includes(scene.job.vehicle.layout))
    .sort((a, b) => weightOrder[a.weight] - weightOrder[b.weight]);

/** The vehicle's own figures in place of a tier: the one whose weight they give, else the tightest. */
export const withServiceData = (
  tiers: readonly Tier[],
  check: Check,
  subject: Subject,
  scene: Scene,
): { tiers: readonly Tier[]; used: ReadonlySet<Tier> } => {
  const used = new Set<Tier>();
  let list = [...tiers];
  // The figures for one corner come last, so that they stand over those for all.
  const byReach = [...scene.job.vehicle.serviceData].sort(
    (a, b) => Number(a.of !== null) - Number(b.of !== null),
  );
  for (const data of byReach) {
    const fits = data.of === null || data.of === subject.name || subject.channels.includes(data.of);
    if (data.check !== check.id || !fits) continue;
    const replaced = data.weight ? list.find((tier) => tier.weight === data.weight) : list.at(-1);
    const model = replaced ?? list.at(-1);
    if (!model) continue;
    const own: Tier = {
      ...model,
      weight: data.weight ?? model.weight,
      limits: data.limits,
      basis: { kind: 'vehicle-data', source: data.source },
    };
    used.add(own);
    list = [...list.filter((tier) => tier !== replaced), own].sort(
      (a, b) => weightOrder[a.weight] - weightOrder[b.weight],
    );
  }
  return { tiers: list, used };
};

export interface TierResult extends Judgement {
  readonly tier: Tier;
}

/** Of tiers that a value is within, the one whose limit is nearest; of equals the lightest. */
const tightest = (results: readonly TierResult[], value: number): TierResult | undefined => {
  const room = ({ tier }: TierResult): number => margin(value, tier.limits) ?? Number.POSITIVE_INFINITY;
  return results.reduce<TierResult | undefined>(
    (best, one) => (best === undefined || room(one) <= room(best) ? one : best),
    undefined,
  );
};

/** The heaviest tier that is out, else the heaviest too close to call, else within against the tightest. */
export const decide = (
  tiers: readonly Tier[],
  value: number,
  expanded: number,
  check: Check,
): TierResult | undefined => {
  const results = tiers.map((tier) => ({ tier, ...judge(value, expanded, tier.limits, check.decision) }));
  return (
    results.find(({ verdict }) => verdict === 'out') ??
    results.find(({ verdict }) => verdict === 'too-close') ??
    tightest(results, value)
  );
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
  scene: Scene,
  check: Check,
): T => {
  const own = withServiceData(fittingTiers(tiers, state, scene), check, subject, scene).tiers;
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
