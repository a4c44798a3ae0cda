import { concern, type Hypothesis, meanOverListed, type Variant } from './hypotheses.ts';
import type { OutcomeTable } from './information.ts';
import type { SuspectChance } from './model.ts';
import { normalised } from './posterior.ts';
import type { Probing } from './recorded-tests.ts';
import { clampBackground, clampLikelihood, strengths, withSlips } from './strengths.ts';

/** Whether a test tells anything apart. */
export const tells = ({ test, inspects }: Probing): boolean =>
  inspects !== null || test.how.some((how) => how.length > 0);

/** What an outcome says of a suspect, or of the others. */
const chanceFor = (name: string, how: readonly SuspectChance[]): number | undefined =>
  how.find(([suspect]) => suspect === name)?.[1];

/** The place of the outcome that a part which the test is not about gives. */
export const usualOutcome = ({ test }: Pick<Probing, 'test'>): number => {
  const general = test.how.map((how) => chanceFor('others', how) ?? 0);
  return Math.max(0, general.indexOf(Math.max(...general)));
};

/** The names by which outcomes may speak of a suspect: its way of failing, its own at a corner, and all of its kind. */
const namesOf = (one: Hypothesis | Variant): readonly string[] => {
  const kind = one.suspect?.id ?? '';
  const mode = 'mode' in one && one.mode !== null ? [`${kind}:${one.mode.id}`] : [];
  return [...mode, one.id, kind];
};

/** P(outcome | suspect) over a test's outcomes: as said of it, else as of the others; they sum to 1. */
const outcomeChances = ({ test, place: where }: Probing, one: Hypothesis | Variant): number[] => {
  // A test at one corner is about the parts of that corner; those of another are among the others.
  const concerned = one.suspect !== null && concern(where, one.place);
  const names = namesOf(one);
  const saidOf = (how: readonly SuspectChance[]): number | undefined =>
    names.map((name) => chanceFor(name, how)).find((chance) => chance !== undefined);
  const said = test.how.map((how) => (concerned ? saidOf(how) : undefined));
  const general = test.how.map((how) => chanceFor('others', how) ?? strengths.never);
  if (said.every((chance) => chance === undefined)) return normalised(general.map(clampLikelihood));
  const rest = Math.max(
    0,
    said.reduce<number>((sum, chance) => sum - (chance ?? 0), 1),
  );
  // Outcomes that are not said of it share what is left as they do for the others.
  const unsaid = general.reduce((sum, chance, index) => (said[index] === undefined ? sum + chance : sum), 0);
  return normalised(
    said.map((chance, index) => clampLikelihood(chance ?? (rest * (general[index] ?? 0)) / unsaid)),
  );
};

/** How often an eye takes a good component for a bad one. Judgement, from memory. */
const falseSight = 0.004;

/** Whether a look at a component is a look at what a hypothesis is about. */
const isSeen = (
  { inspects, place: where }: Probing,
  { suspect, place }: Hypothesis,
  component: string,
): boolean =>
  inspects !== null && suspect !== null && suspect.component === component && concern(where, place);

/** P(fault seen), P(nothing seen) of a look at a component. */
const sightChances = (probing: Probing, one: Hypothesis, component: string): number[] => {
  const sees = isSeen(probing, one, component) ? (one.suspect?.inspect.sees ?? falseSight) : falseSight;
  return [sees, 1 - sees];
};

const backgroundOf = (
  places: readonly number[],
  hypotheses: readonly Hypothesis[],
  listed: readonly (readonly number[])[],
): number[] =>
  normalised(
    places.map((place) =>
      clampBackground(
        meanOverListed(
          hypotheses,
          listed.map((chances) => chances[place] ?? 0),
        ),
      ),
    ),
  );

/**
 * What a test can find: for each outcome its likelihood under every hypothesis, slips included; each column sums to 1.
 * Something else has the mean over all that is listed, held between 0.1 and 0.9. What an eye saw has no slip: nobody
 * mistypes that a rod is off its ball.
 */
export const outcomeTable = (probing: Probing, hypotheses: readonly Hypothesis[]): OutcomeTable => {
  const places = probing.test.outcomes.map((_, place) => place);
  if (probing.inspects !== null) {
    const component = probing.inspects.split('.')[0] ?? '';
    const columns = hypotheses.map((one) => sightChances(probing, one, component));
    return places.map((place) => columns.map((one) => one[place] ?? 0));
  }
  const listed = hypotheses.map((one) => outcomeChances(probing, one));
  const background = backgroundOf(places, hypotheses, listed);
  const chances = listed.map((one, index) => (hypotheses[index]?.suspect ? one : background));
  return places.map((place) => chances.map((one) => withSlips(one[place] ?? 0, 1 / places.length)));
};
