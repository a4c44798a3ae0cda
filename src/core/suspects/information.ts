/** What a test can find: for each outcome its likelihood under every hypothesis; a column sums to 1. */
export type OutcomeTable = readonly (readonly number[])[];

/** Shannon's entropy of probabilities, in bits. */
export const entropy = (probabilities: readonly number[]): number =>
  probabilities.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);

/** How probable an outcome is before the test is done. */
export const chanceOf = (probabilities: readonly number[], outcome: readonly number[]): number =>
  probabilities.reduce((sum, p, index) => sum + p * (outcome[index] ?? 0), 0);

/** Each outcome that can happen, with its chance and what would then be thought of the hypotheses. */
export const branches = (
  probabilities: readonly number[],
  outcomes: OutcomeTable,
): { readonly index: number; readonly chance: number; readonly after: readonly number[] }[] =>
  outcomes.flatMap((outcome, index) => {
    const chance = chanceOf(probabilities, outcome);
    const after = probabilities.map((p, place) => (p * (outcome[place] ?? 0)) / chance);
    return chance > 0 ? [{ index, chance, after }] : [];
  });

/** The information that a test is expected to give, in bits: entropy now less the mean entropy afterwards. */
export const expectedInformation = (probabilities: readonly number[], outcomes: OutcomeTable): number => {
  const after = branches(probabilities, outcomes).reduce(
    (sum, { chance, after: p }) => sum + chance * entropy(p),
    0,
  );
  // Rounding must not make a useless test look harmful.
  return Math.max(0, entropy(probabilities) - after);
};
