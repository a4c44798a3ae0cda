import type { Hypothesis } from './hypotheses.ts';
import { points } from './posterior.ts';
import type { LedgerLine } from './ranking.ts';
import type { EvidenceRow } from './weigh.ts';

/**
 * Why one hypothesis is more likely than another: a line for what was thought before, and one for each piece of
 * evidence. Their points add up to 10·log10 of the ratio of the two posteriors, each alone at fault, since all that both
 * have in common cancels.
 *
 * @param index of the hypothesis, and of its rival
 */
export const ledgerOf = (
  index: number,
  rival: number,
  hypotheses: readonly Hypothesis[],
  rows: readonly EvidenceRow[],
): LedgerLine[] => {
  const line = (
    { group, title, from, observed }: Pick<LedgerLine, 'group' | 'title' | 'from' | 'observed'>,
    likelihood: number,
    against: number,
  ): LedgerLine => ({
    group,
    title,
    from,
    observed,
    likelihood,
    rival: against,
    points: points(likelihood, against),
  });
  return [
    line(
      { group: 'prior', title: 'before any reading', from: [], observed: '' },
      hypotheses[index]?.prior ?? 0,
      hypotheses[rival]?.prior ?? 0,
    ),
    ...rows.map(({ id, title, from, observed, row }) =>
      line({ group: id, title, from, observed }, row[index] ?? 1, row[rival] ?? 1),
    ),
  ];
};

/** Less than a quarter of the odds is no reason to name a finding. */
const worthNaming = 1;

/**
 * The evidence that speaks for a hypothesis and against it, held against all others together by their priors:
 * 10·log10 of P(observed | it) / P(observed | not it). Against the best rival alone, what both explain alike would
 * speak for neither. What weighs most comes first.
 * Source: I. J. Good, Probability and the Weighing of Evidence (1950), from memory.
 */
export const forAndAgainst = (
  index: number,
  hypotheses: readonly Hypothesis[],
  rows: readonly EvidenceRow[],
): { readonly for: readonly string[]; readonly against: readonly string[] } => {
  const weigh = (row: readonly number[]): number => {
    let sum = 0;
    let weight = 0;
    for (const [place, { prior }] of hypotheses.entries()) {
      if (place === index) continue;
      sum += prior * (row[place] ?? 1);
      weight += prior;
    }
    return weight > 0 ? points(row[index] ?? 1, sum / weight) : 0;
  };
  const weighed = rows.map((one) => ({ one, weight: weigh(one.row) }));
  const named = (sign: 1 | -1): string[] => {
    const telling = weighed.filter(({ weight }) => sign * weight >= worthNaming);
    telling.sort((a, b) => sign * (b.weight - a.weight));
    return [...new Set(telling.flatMap(({ one }) => one.from))];
  };
  return { for: named(1), against: named(-1) };
};
