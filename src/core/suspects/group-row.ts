import type { Job } from '../job.ts';
import { type Hypothesis, meanOverListed } from './hypotheses.ts';
import type { OutcomeTable } from './information.ts';
import type { EvidenceGroup } from './model.ts';
import { isLevelled, type Observation } from './observe.ts';
import { type LikelihoodRow, mixture, normalised } from './posterior.ts';
import { neutralOf, spaces } from './spaces.ts';
import { clampBackground, clampLikelihood, strengths, withSlips } from './strengths.ts';

/** How often levelling has brought a signal to its target, whatever is wrong. Judgement, from memory. */
const levelledAway = 0.8;

/**
 * P(value | hypothesis) for every value of a group: what the suspect's signs say; of the rest each other value has
 * `never` at most, and the value that a good vehicle shows has what remains. Without a sign the group shows what a good
 * vehicle does. Each is held between 0.02 and 0.98, so that very many values may sum to a little over one; only their
 * ratios between suspects count.
 */
export const valueChances = (group: EvidenceGroup, { suspect, corner }: Hypothesis): Map<string, number> => {
  const values: readonly string[] = spaces[group.space];
  const neutral = neutralOf(group.space);
  const signs = (suspect?.expects ?? []).filter((sign) => sign.group === group.id);
  const said = new Map<string, number>();
  for (const { shows, how } of signs) {
    const value = shows === 'corner' ? (corner ?? neutral) : shows;
    // That it is out, with no word on which way: either, in equal parts.
    const parts = values.includes(value) ? [value] : values.slice(1);
    for (const part of parts) said.set(part, (said.get(part) ?? 0) + how / parts.length);
  }
  const rest = Math.max(0, 1 - [...said.values()].reduce((sum, p) => sum + p, 0));
  const unsaid = values.filter((value) => !said.has(value));
  const small = Math.min(strengths.never, unsaid.length > 0 ? rest / unsaid.length : 0);
  const others = unsaid.filter((value) => value !== neutral).length;
  const chance = (value: string): number => {
    const own = said.get(value);
    if (own !== undefined) return own;
    if (!unsaid.includes(neutral)) return rest / unsaid.length;
    return value === neutral ? rest - small * others : small;
  };
  return new Map(values.map((value) => [value, clampLikelihood(chance(value))]));
};

const mentions = (group: EvidenceGroup, { suspect }: Hypothesis): boolean =>
  suspect?.expects.some((sign) => sign.group === group.id) ?? false;

/** The mean over some hypotheses by their priors, value by value. */
const meanChances = (
  values: readonly string[],
  hypotheses: readonly Hypothesis[],
  chances: readonly ReadonlyMap<string, number>[],
): Map<string, number> =>
  new Map(
    values.map((value) => [
      value,
      meanOverListed(
        hypotheses,
        chances.map((one) => one.get(value) ?? 0),
      ),
    ]),
  );

/** A closer look at readings that have counted already: suspects that it is not about are left where they are. */
const ofTheMentioned = (
  group: EvidenceGroup,
  hypotheses: readonly Hypothesis[],
  chances: readonly ReadonlyMap<string, number>[],
): readonly ReadonlyMap<string, number>[] => {
  const places = hypotheses.flatMap((one, place) => (mentions(group, one) ? [place] : []));
  if (places.length === 0) return chances;
  const mean = meanChances(
    spaces[group.space],
    hypotheses.filter((_, place) => places.includes(place)),
    chances.filter((_, place) => places.includes(place)),
  );
  return chances.map((one, place) => (places.includes(place) ? one : mean));
};

/** What is not listed shows each value as often as the listed do in the mean, held between 0.1 and 0.9, in all 1. */
const background = (
  values: readonly string[],
  hypotheses: readonly Hypothesis[],
  chances: readonly ReadonlyMap<string, number>[],
): Map<string, number> => {
  const mean = meanChances(values, hypotheses, chances);
  const shares = normalised(values.map((value) => clampBackground(mean.get(value) ?? 0)));
  return new Map(values.map((value, place) => [value, shares[place] ?? 0]));
};

/**
 * For every hypothesis P(value | hypothesis) over the values of a group, in their order and without slips; something else
 * has the background rate of each.
 */
export const chancesUnder = (
  group: EvidenceGroup,
  hypotheses: readonly Hypothesis[],
): readonly (readonly number[])[] => {
  const values = spaces[group.space];
  const own = hypotheses.map((one) => valueChances(group, one));
  const chances = group.refines ? ofTheMentioned(group, hypotheses, own) : own;
  const unlisted = background(values, hypotheses, chances);
  return chances.map((one, place) => {
    const listed = hypotheses[place]?.suspect ? one : unlisted;
    return values.map((value) => listed.get(value) ?? 0);
  });
};

/**
 * What a group can show, as a table: for each value of its space, in order, its likelihood under every hypothesis when
 * it was read beyond doubt and levelling was not active, slips included.
 */
export const groupTable = (group: EvidenceGroup, hypotheses: readonly Hypothesis[]): OutcomeTable => {
  const values: readonly string[] = spaces[group.space];
  const chances = chancesUnder(group, hypotheses);
  return values.map((_, place) => chances.map((one) => withSlips(one[place] ?? 0, 1 / values.length)));
};

/**
 * The likelihood of one observation under every hypothesis: Σ P(observed | value)·P(value | hypothesis), with slips.
 * Where levelling was active the group shows a good value in four cases of five whatever is wrong, so that a signal at
 * its target says little of its corner, and one that is off it as much as ever.
 *
 * @param chances of the group's values under each hypothesis, as `chancesUnder` gives them
 */
export const groupRow = (
  { group, chances }: { readonly group: EvidenceGroup; readonly chances: readonly (readonly number[])[] },
  seen: Observation,
  job: Job,
): LikelihoodRow => {
  const values: readonly string[] = spaces[group.space];
  const weights = values.map((value) => seen.weights.get(value) ?? 0);
  const away = isLevelled(group, seen, job) ? levelledAway : 0;
  const atTarget = seen.weights.get(neutralOf(group.space)) ?? 0;
  const byChance = weights.reduce((sum, weight) => sum + weight, 0) / values.length;
  return chances.map((one) => {
    const sum = mixture(weights, one);
    return withSlips(away * atTarget + (1 - away) * Math.min(0.98, sum), byChance);
  });
};
