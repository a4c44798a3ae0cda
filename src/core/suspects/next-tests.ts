import { missingConfirmations } from './confirmed.ts';
import { answeredByReadings, type Evidence } from './evidence.ts';
import { fewer } from './fewer.ts';
import type { Hypothesis } from './hypotheses.ts';
import { branches, expectedInformation, type OutcomeTable } from './information.ts';
import { type Probe, valueTests } from './look-ahead.ts';
import { tells } from './outcome-table.ts';
import type { OutcomeEffect, RankedTest } from './ranking.ts';
import { actionsOf, priceOf, type Stakes } from './stakes.ts';
import type { TestModel } from './suspect-model.ts';
import type { WeighedSuspects } from './weigh.ts';

/** Bits below which a test tells nothing and is left out, and below which it is not looked at as one of a pair. */
const nothing = 0.002;
const little = 0.01;

/** How many tests are worth a reader's while. */
const shown = 10;

interface Candidate {
  readonly probing: TestModel;
  readonly outcomes: OutcomeTable;
  readonly bits: number;
  /** With its preparation, and of the work that it brings. */
  readonly minutes: number;
  readonly brings: number;
}

const candidatesOf = (evidence: Evidence, probabilities: readonly number[]): Candidate[] =>
  evidence.probings
    .filter(
      (probing) =>
        tells(probing) &&
        !evidence.recorded.has(probing.id) &&
        !answeredByReadings(probing, evidence.observed) &&
        missingConfirmations(probing.test.after, probing.corner, evidence).length === 0,
    )
    .map((probing) => {
      const { outcomes, test } = probing;
      const { minutes, setUp, brings } = test;
      return {
        probing,
        outcomes,
        bits: expectedInformation(probabilities, outcomes),
        minutes: minutes + (setUp?.minutes ?? 0),
        brings,
      };
    })
    .filter(({ bits }) => bits >= nothing);

/**
 * Expected saving of each candidate, in their order: what it saves alone, or with one more test after it where that
 * beats what any other test saves alone. Without that, a test that tells nothing would be credited with the good one
 * that follows it.
 */
const savings = (
  candidates: readonly Candidate[],
  hypotheses: readonly Hypothesis[],
  probabilities: readonly number[],
  stakes: Stakes,
): number[] => {
  const small = fewer(probabilities);
  const probes = candidates.map(
    ({ probing: { id, test }, outcomes }): Probe => ({
      id,
      cost: priceOf(test.minutes + test.brings, stakes),
      setUp: test.setUp && { id: test.setUp.id, cost: priceOf(test.setUp.minutes, stakes) },
      outcomes: small.table(outcomes),
    }),
  );
  const actions = small.actions(actionsOf(hypotheses, stakes));
  const value = (among: readonly Probe[], depth: number): Map<string, number> =>
    new Map(
      valueTests(small.probabilities, actions, among, new Set(), depth).map((one) => [
        one.probe.id,
        one.value,
      ]),
    );
  const alone = value(probes, 1);
  // The best first: looking ahead leaves off with what cannot beat it.
  const saving = ({ id }: Probe): number => alone.get(id) ?? 0;
  const paired = value(
    probes
      .filter((_, place) => (candidates[place]?.bits ?? 0) >= little)
      .sort((a, b) => saving(b) - saving(a)),
    2,
  );
  return probes.map(({ id }) => {
    const own = alone.get(id) ?? 0;
    const others = Math.max(0, ...[...alone].flatMap(([other, saved]) => (other === id ? [] : [saved])));
    const both = paired.get(id) ?? own;
    return both > others ? both : own;
  });
};

const effects = (
  { probing, outcomes }: Candidate,
  hypotheses: readonly Hypothesis[],
  probabilities: readonly number[],
): OutcomeEffect[] =>
  branches(probabilities, outcomes).map(({ index, chance, after }) => {
    const probability = Math.max(...after);
    const outcome = probing.test.outcomes[index];
    return {
      id: outcome?.id ?? '',
      title: outcome?.title ?? '',
      chance,
      leader: hypotheses[after.indexOf(probability)]?.id ?? '',
      probability,
      under: new Map(hypotheses.map((one, place) => [one.id, outcomes[index]?.[place] ?? 0])),
    };
  });

/** What can be done next, and which of it pays. */
export interface NextTests {
  readonly tests: readonly RankedTest[];
  /** Ids of all tests that save more than they cost, the best first; none where nothing is priced. */
  readonly paying: readonly string[];
}

/**
 * Tests that could be done next, the most worth while first: by what each is expected to save where one more may
 * follow it, and where none saves anything, or nothing is priced, by bits a minute. Left out are those that are on
 * record, that readings have answered, that lack what must come first, and that would tell nothing.
 */
export const nextTests = ({ model, evidence, probabilities, stakes }: WeighedSuspects): NextTests => {
  const { hypotheses } = model;
  const candidates = candidatesOf(evidence, probabilities);
  const saved = stakes ? savings(candidates, hypotheses, probabilities, stakes) : null;
  const pays = saved?.some((value) => value > 0) ?? false;
  const rated = candidates.map((candidate, index) => {
    const saves = saved?.[index] ?? null;
    // A test of no minutes is as good as any can be.
    const pace = candidate.bits / Math.max(candidate.minutes + candidate.brings, 1e-9);
    return { candidate, saves, merit: pays ? (saves ?? 0) : pace };
  });
  rated.sort((a, b) => b.merit - a.merit || (a.candidate.probing.id < b.candidate.probing.id ? -1 : 1));
  return {
    paying: rated
      .filter(({ saves }) => saves !== null && saves > 0)
      .map(({ candidate }) => candidate.probing.id),
    tests: rated.slice(0, shown).map(({ candidate, saves }) => {
      const { test, corner, id, cautions } = candidate.probing;
      return {
        id,
        title: corner === null ? test.title : `${test.title}, ${corner}`,
        minutes: candidate.minutes,
        brings: candidate.brings,
        bits: candidate.bits,
        saves,
        cautions,
        points: test.points,
        outcomes: effects(candidate, hypotheses, probabilities),
      };
    }),
  };
};
