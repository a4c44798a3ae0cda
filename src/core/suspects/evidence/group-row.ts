import { corners, isAxle, isCorner } from '../../corner.ts';
import type { Place } from '../../key.ts';
import { concern, type Hypothesis, meanOverListed, signsOf } from '../hypotheses.ts';
import type { OutcomeTable } from '../information.ts';
import type { EvidenceGroup, Sign } from '../model.ts';
import { type LikelihoodRow, mixture, normalised } from '../posterior.ts';
import { clampBackground, clampLikelihood, falseAlarm, strengths, withSlips } from '../strengths.ts';
import { neutralOf, springAt } from './spaces.ts';

/** Whether readings were taken while levelling worked. */
export type Levelling = 'active' | 'off';

/** How often levelling has brought a signal to its target, whatever is wrong. Judgement, from memory. */
const levelledAway = 0.8;

/** The values that a word of a sign stands for at a suspect's own place. */
const valuesFor = (word: string, place: Place | null, values: readonly string[]): readonly string[] => {
  if ((word === 'own' || word === 'corner') && place !== null && values.includes(place)) return [place];
  if (word === 'own-spring' && place !== null && isCorner(place)) return [springAt(place)];
  if (word === 'own-low' || word === 'own-high')
    return place !== null && isAxle(place) ? [`${word.slice('own-'.length)}-${place}`] : [];
  if (word === 'any') return corners.filter((corner) => values.includes(corner));
  // That it is out, with no word on which way: either, in equal parts.
  return values.includes(word) ? [word] : values.slice(1);
};

/** Whether a sign of a suspect is about a group's place. */
const isAt = ({ at }: Sign, place: Place | null, where: Place | null): boolean => {
  if (at?.includes('other')) return !concern(place, where);
  if (!concern(place, where)) return false;
  return at === null || where === null || at.some((axle) => axle !== 'other' && concern(axle, where));
};

/** The signs by which a hypothesis shows in a group while levelling is so. */
const signsIn = (
  { base, place: where }: EvidenceGroup,
  hypothesis: Hypothesis,
  levelling: Levelling,
): Sign[] =>
  signsOf(hypothesis).filter(
    (sign) =>
      sign.group === base &&
      (sign.levelling === null || sign.levelling === levelling) &&
      isAt(sign, hypothesis.place, where),
  );

/**
 * P(value | hypothesis) for every value of a group: what the suspect's signs say; of the rest each other value has
 * `never` at most, and the value that a good vehicle shows has what remains. A suspect without a sign shows something
 * by chance only, as often as the group's `by-chance` says, or at the rate of false alarms. What is stated is held between
 * 0.02 and 0.98.
 */
export const valueChances = (
  group: EvidenceGroup,
  hypothesis: Hypothesis,
  levelling: Levelling = 'off',
): Map<string, number> => {
  const { values } = group;
  const byChance = group.byChance ?? falseAlarm;
  const neutral = neutralOf(group);
  const signs = signsIn(group, hypothesis, levelling);
  const alarms = values.length - 1;
  if (signs.length === 0)
    return new Map(values.map((value) => [value, value === neutral ? 1 - byChance : byChance / alarms]));
  const said = new Map<string, number>();
  for (const { shows, how } of signs) {
    const parts = shows.flatMap((word) => valuesFor(word, hypothesis.place, values));
    for (const part of parts) said.set(part, (said.get(part) ?? 0) + how / parts.length);
  }
  const rest = Math.max(0, 1 - [...said.values()].reduce((sum, p) => sum + p, 0));
  const unsaid = values.filter((value) => !said.has(value));
  // What is not said of it shows by chance, too.
  const often = Math.max(strengths.never, byChance / alarms);
  const small = Math.min(often, unsaid.length > 0 ? rest / unsaid.length : 0);
  const others = unsaid.filter((value) => value !== neutral).length;
  const chance = (value: string): number => {
    const own = said.get(value);
    if (own !== undefined) return own;
    if (!unsaid.includes(neutral)) return rest / unsaid.length;
    return value === neutral ? rest - small * others : small;
  };
  return new Map(values.map((value) => [value, clampLikelihood(chance(value))]));
};

const mentions = ({ base }: EvidenceGroup, hypothesis: Hypothesis): boolean =>
  signsOf(hypothesis).some((sign) => sign.group === base);

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
    group.values,
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
  levelling: Levelling = 'off',
): readonly (readonly number[])[] => {
  const { values } = group;
  const own = hypotheses.map((one) => valueChances(group, one, levelling));
  const chances = group.refines ? ofTheMentioned(group, hypotheses, own) : own;
  const unlisted = background(values, hypotheses, chances);
  return chances.map((one, place) => {
    const listed = hypotheses[place]?.suspect ? one : unlisted;
    return values.map((value) => listed.get(value) ?? 0);
  });
};

/** The values of a group where no fault speaks: its first value, but for what shows by chance. */
const chancesOfAlarm = ({ values }: EvidenceGroup, often: number): readonly number[] =>
  values.map((_, place) => (place === 0 ? 1 - often : often / (values.length - 1)));

/**
 * What a slip shows: any value as likely as another, or, where the pack says how often a group shows something by
 * chance (`by-chance`), no more often than that: nobody mistypes a reading into a code of a fault inside the module.
 */
const slipChances = (group: EvidenceGroup): readonly number[] => {
  const { values, byChance } = group;
  return byChance === null ? values.map(() => 1 / values.length) : chancesOfAlarm(group, byChance);
};

/**
 * What a group can show, as a table: for each value of its space, in order, its likelihood under all that may be so when
 * it was read beyond doubt and levelling was not active, slips included.
 *
 * @param chances of the group's values, as `chancesUnder` or `chancesInWorlds` gives them
 */
export const groupTable = (group: EvidenceGroup, chances: readonly (readonly number[])[]): OutcomeTable => {
  const slips = slipChances(group);
  return group.values.map((_, place) => chances.map((one) => withSlips(one[place] ?? 0, slips[place] ?? 0)));
};

/**
 * The most that an observation can be under any hypothesis: what a group that shows nothing by chance leaves, at the
 * usual rate of false alarms, or at the group's own where that is less, as with codes. A driver who often says
 * something by chance (0.4) makes nobody less sure of what a suspect does show.
 */
const surest = ({ byChance }: EvidenceGroup): number => 1 - Math.min(falseAlarm, byChance ?? falseAlarm);

/**
 * The likelihood of one observation under every hypothesis: Σ P(observed | value)·P(value | hypothesis), with slips.
 * Observations that leave several values open can add up to more than a good vehicle shows, and are held below that.
 * Where levelling was active the group shows a good value in four cases of five whatever is wrong, so that a signal at
 * its target says little of its corner, and one that is off it as much as ever.
 *
 * @param weights P(observed | value) over the group's values
 * @param levelled whether all that was observed was taken while levelling may have brought it to its target
 * @param chances of the group's values under each hypothesis, as `chancesUnder` gives them
 */
export const groupRow = (
  group: EvidenceGroup,
  weights: ReadonlyMap<string, number>,
  levelled: boolean,
  chances: readonly (readonly number[])[],
): LikelihoodRow => {
  const each = group.values.map((value) => weights.get(value) ?? 0);
  const away = levelled ? levelledAway : 0;
  const atTarget = each[0] ?? 0;
  const bySlip = mixture(each, slipChances(group));
  const most = surest(group);
  return chances.map((one) =>
    withSlips(away * atTarget + (1 - away) * Math.min(most, mixture(each, one)), bySlip),
  );
};
