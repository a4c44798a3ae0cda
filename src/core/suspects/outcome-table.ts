import { type Hypothesis, meanOverListed } from './hypotheses.ts';
import type { OutcomeTable } from './information.ts';
import type { SuspectChance } from './model.ts';
import { normalised } from './posterior.ts';
import type { Probing } from './recorded-tests.ts';
import { clampBackground, clampLikelihood, strengths, withSlips } from './strengths.ts';

/** Whether a test tells anything apart. */
export const tells = ({ test }: Probing): boolean => test.how.some((how) => how.length > 0);

/** What an outcome says of a suspect, or of the others. */
const chanceFor = (name: string, how: readonly SuspectChance[]): number | undefined =>
  how.find(([suspect]) => suspect === name)?.[1];

/** P(outcome | suspect) over a test's outcomes: as said of it, else as of the others; they sum to 1. */
const outcomeChances = ({ test, corner }: Probing, { id, suspect, corner: own }: Hypothesis): number[] => {
  // A test at one corner is about the parts of that corner; those of another are among the others.
  const concerned = suspect !== null && (corner === null || own === null || own === corner);
  // An outcome may name the part of one corner.
  const said = test.how.map((how) =>
    concerned ? (chanceFor(id, how) ?? chanceFor(suspect.id, how)) : undefined,
  );
  const general = test.how.map((how) => chanceFor('others', how) ?? strengths.never);
  if (said.every((one) => one === undefined)) return normalised(general.map(clampLikelihood));
  const rest = Math.max(
    0,
    said.reduce<number>((sum, one) => sum - (one ?? 0), 1),
  );
  // Outcomes that are not said of it share what is left as they do for the others.
  const unsaid = general.reduce((sum, one, index) => (said[index] === undefined ? sum + one : sum), 0);
  return normalised(
    said.map((one, index) => clampLikelihood(one ?? (rest * (general[index] ?? 0)) / unsaid)),
  );
};

/**
 * What a test can find: for each outcome its likelihood under every hypothesis, slips included; each column sums to 1.
 * Something else has the mean over all that is listed, held between 0.1 and 0.9.
 */
export const outcomeTable = (probing: Probing, hypotheses: readonly Hypothesis[]): OutcomeTable => {
  const listed = hypotheses.map((one) => outcomeChances(probing, one));
  const places = probing.test.outcomes.map((_, place) => place);
  const background = normalised(
    places.map((place) =>
      clampBackground(
        meanOverListed(
          hypotheses,
          listed.map((chances) => chances[place] ?? 0),
        ),
      ),
    ),
  );
  const chances = listed.map((one, index) => (hypotheses[index]?.suspect ? one : background));
  return places.map((place) => chances.map((one) => withSlips(one[place] ?? 0, 1 / places.length)));
};
