import { isCorner } from '../corner.ts';
import type { Hypothesis, Variant } from './hypotheses.ts';
import type { OutcomeTable } from './information.ts';
import { type LikelihoodRow, logsOf, normalised } from './posterior.ts';

/** What may be wrong at once: one hypothesis, or two parts that explain different evidence. */
export interface World {
  /** `sensor.LR`, `sensor.LR + battery` */
  readonly id: string;
  /** Places of its hypotheses; one or two. */
  readonly members: readonly number[];
  /** Places of their variants: the way in which each member is so. */
  readonly variants: readonly number[];
  /** Before any evidence; relative to the other worlds. */
  readonly prior: number;
}

/** What was observed, as far as it tells which faults belong together. */
interface Telling {
  /** True where it shows what a good vehicle shows. */
  readonly quiet: boolean;
  /** Likelihoods in the order of the variants. */
  readonly row: LikelihoodRow;
}

/** How much less likely two faults at once are than their priors multiplied. Judgement, from memory. */
const together = 0.2;

/** A part explains a piece of evidence better than another where it expects it this many times as often. */
const better = 2;

/** Of so many pairs at most the likeliest are looked at. */
const mostPairs = 60;

/** A hypothesis, or one of the ways in which it may be so. */
type Possible = Hypothesis | Variant;

const hypothesisAt = (possible: readonly Possible[], place: number): number => {
  const one = possible[place];
  return one && 'of' in one ? one.of : place;
};

/** A world of one variant each. */
const singlesOf = (variants: readonly Possible[], priors: readonly number[]): World[] =>
  variants.map(({ id }, place) => ({
    id,
    members: [hypothesisAt(variants, place)],
    variants: [place],
    prior: priors[place] ?? 0,
  }));

/** Whether two are two faults: not ways of failing of one suspect, and not one component at one place. */
const areTwo = (a: Possible, b: Possible): boolean =>
  a.id !== b.id && (a.suspect?.component !== b.suspect?.component || a.place !== b.place);

/**
 * How well a pair explains the evidence where each piece is explained by the better of both; a logarithm.
 *
 * @param logs of the likelihoods, as of `logsOf`
 */
const meritOf = (prior: number, one: number, other: number, logs: readonly (readonly number[])[]): number => {
  let merit = Math.log(prior);
  for (const row of logs) merit += Math.max(row[one] as number, row[other] as number);
  return merit;
};

/**
 * What may be wrong with a vehicle: each hypothesis by itself, and beside them pairs of listed suspects of which each
 * explains some telling evidence clearly better than the other. Two of one component at one place are no pair.
 *
 * @param variants hypotheses, each once for every way in which it may be so
 * @param priors in their order
 * @param rows what was observed; quiet rows name no pair
 */
export const worldsOf = (
  variants: readonly Possible[],
  priors: readonly number[],
  rows: readonly Telling[],
): World[] => {
  const singles = singlesOf(variants, priors);
  const telling = rows.filter(({ quiet }) => !quiet);
  if (telling.length < 2) return singles;
  const listed = variants.flatMap(({ suspect }, place) => (suspect?.repaired ? [place] : []));
  const explains = (one: number, other: number): boolean =>
    telling.some(({ row }) => (row[one] ?? 0) > better * (row[other] ?? 0));
  const logs = rows.map(({ row }) => logsOf(row));
  const pairs: (World & { readonly merit: number })[] = [];
  for (const [index, one] of listed.entries()) {
    for (const other of listed.slice(index + 1)) {
      const [a, b] = [variants[one], variants[other]];
      if (!a || !b || !areTwo(a, b) || !explains(one, other) || !explains(other, one)) continue;
      const prior = together * (priors[one] ?? 0) * (priors[other] ?? 0);
      const merit = meritOf(prior, one, other, logs);
      const members = [hypothesisAt(variants, one), hypothesisAt(variants, other)];
      pairs.push({ id: `${a.id} + ${b.id}`, members, variants: [one, other], prior, merit });
    }
  }
  pairs.sort((a, b) => b.merit - a.merit || (a.id < b.id ? -1 : 1));
  return [...singles, ...pairs.slice(0, mostPairs).map(({ merit: _, ...world }) => world)];
};

/**
 * P(value | both are at fault), over the values of a group or the outcomes of a test: each value that is not the good
 * one as often as the part that shows it more often, and the good one with what remains. Two parts that each show their
 * own corner show several.
 *
 * @param good place of the value that a good vehicle shows
 * @param several place of the value for several corners, or null
 */
const ofBoth = (
  one: readonly number[],
  other: readonly number[],
  good: number,
  several: number | null,
): number[] => {
  const chances = one.map((p, place) => Math.max(p, other[place] ?? 0));
  if (several !== null) {
    const first = one.indexOf(Math.max(...one));
    const second = other.indexOf(Math.max(...other));
    if (first !== second && first !== good && second !== good && first !== several && second !== several) {
      const both = (one[first] ?? 0) * (other[second] ?? 0);
      chances[several] = Math.max(chances[several] ?? 0, both);
      chances[first] = (one[first] ?? 0) * (1 - (other[second] ?? 0));
      chances[second] = (other[second] ?? 0) * (1 - (one[first] ?? 0));
    }
  }
  const rest = chances.reduce((sum, p, place) => (place === good ? sum : sum + p), 0);
  chances[good] = Math.max(0.02, Math.min(one[good] ?? 0, other[good] ?? 0, 1 - rest));
  return normalised(chances);
};

const severalOf = (values: readonly string[]): number | null => {
  const place = values.indexOf('several');
  return place >= 0 && values.some(isCorner) ? place : null;
};

/**
 * Chances over the values of a group under each world.
 *
 * @param chances under each variant, as `chancesUnder` gives them
 */
export const chancesInWorlds = (
  chances: readonly (readonly number[])[],
  values: readonly string[],
  worlds: readonly World[],
): readonly (readonly number[])[] => {
  const several = severalOf(values);
  return worlds.map(({ variants: [one = 0, other] }) => {
    const own = chances[one] ?? [];
    return other === undefined ? own : ofBoth(own, chances[other] ?? [], 0, several);
  });
};

/**
 * A test's outcome table with a column for each world.
 *
 * @param table with a column for each variant
 * @param usual place of the outcome that a part which the test is not about gives
 */
export const tableInWorlds = (table: OutcomeTable, usual: number, worlds: readonly World[]): OutcomeTable => {
  const column = (place: number): number[] => table.map((row) => row[place] ?? 0);
  // Row by row, since most worlds are of one variant and need no column of their own.
  const rows = table.map((row) => worlds.map(({ variants: [one = 0] }) => row[one] ?? 0));
  for (const [place, { variants }] of worlds.entries()) {
    const [one = 0, other] = variants;
    if (other === undefined) continue;
    const both = ofBoth(column(one), column(other), usual, null);
    for (const [outcome, row] of rows.entries()) row[place] = both[outcome] ?? 0;
  }
  return rows;
};

/** The share of each hypothesis over all worlds that it is part of; shares of two in one world both count. */
export const marginals = (
  worlds: readonly World[],
  probabilities: readonly number[],
  count: number,
): number[] => {
  const shares = new Array<number>(count).fill(0);
  for (const [place, { members }] of worlds.entries())
    for (const member of members) shares[member] = (shares[member] ?? 0) + (probabilities[place] ?? 0);
  return shares;
};
