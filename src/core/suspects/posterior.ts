/** How likely one piece of evidence is under each hypothesis, in the order of the hypotheses. */
export type LikelihoodRow = readonly number[];

/**
 * Bayes' rule over hypotheses of which exactly one holds, computed in logarithms so that many small factors do not
 * vanish: p ∝ prior × Π likelihood.
 *
 * @param priors relative weights, not negative, at least one above zero; they need not sum to 1
 * @param rows one row for each piece of evidence, each factor from 0 to 1
 * @returns probabilities that sum to 1, in the order of the priors; the priors where the evidence rules out all
 */
export const posterior = (priors: readonly number[], rows: readonly LikelihoodRow[]): number[] =>
  posteriorOfLogs(priors, rows.map(logsOf));

/** Natural logarithms of a row. */
export const logsOf = (row: LikelihoodRow): number[] => row.map(Math.log);

/**
 * Bayes' rule over rows of logarithms, for whoever asks again and again with most rows as they were.
 *
 * @param rows as of `logsOf`
 */
export const posteriorOfLogs = (
  priors: readonly number[],
  rows: readonly (readonly number[])[],
): number[] => {
  const logs = priors.map((prior, index) => {
    let sum = Math.log(prior);
    for (const row of rows) sum += row[index] ?? 0;
    return sum;
  });
  const largest = Math.max(...logs);
  // Evidence that no hypothesis allows tells them apart no better than none.
  if (largest === Number.NEGATIVE_INFINITY) return normalised(priors);
  return normalised(logs.map((log) => Math.exp(log - largest)));
};

/** Weights scaled to sum to 1. */
export const normalised = (weights: readonly number[]): number[] => {
  let sum = 0;
  for (const weight of weights) sum += weight;
  return weights.map((weight) => weight / sum);
};

/**
 * The likelihood of what is not known for sure: each possible observation, weighted by how probable it is that it was
 * the true one. With one sure observation it is that one's likelihood.
 *
 * @param chances of the observations, which sum to 1
 * @param likelihoods of each observation under one hypothesis
 */
export const mixture = (chances: readonly number[], likelihoods: readonly number[]): number =>
  chances.reduce((sum, chance, index) => sum + chance * (likelihoods[index] ?? 0), 0);

/**
 * Ten times the decimal logarithm of a likelihood ratio: 3 points double the odds, 10 make them tenfold; points of
 * independent evidence add up.
 */
export const points = (likelihood: number, rival: number): number => 10 * Math.log10(likelihood / rival);
