import { weightOrder } from '../finding.ts';
import type { Check, Tier } from '../pack.ts';
import type { CheckContext } from './check-context.ts';
import type { Subject } from './subjects.ts';

const none: ReadonlySet<Tier> = new Set();

/** The vehicle's own figures in place of a tier: the one whose weight they give, else the tightest. */
export const withServiceData = (
  tiers: readonly Tier[],
  check: Check,
  subject: Subject,
  context: CheckContext,
): { tiers: readonly Tier[]; used: ReadonlySet<Tier> } => {
  const { serviceData } = context.job.vehicle;
  if (!serviceData.some((data) => data.check === check.id)) return { tiers, used: none };
  const used = new Set<Tier>();
  let list = [...tiers];
  // The figures for one corner come last, so that they stand over those for all.
  const byReach = [...serviceData].sort((a, b) => Number(a.of !== null) - Number(b.of !== null));
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
