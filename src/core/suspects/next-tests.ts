import { missingConfirmations } from './confirmed.ts';
import type { Action, Probe } from './decision.ts';
import { answeredByReadings } from './evidence/evidence.ts';
import { fewer } from './fewer.ts';
import { branches, expectedInformation, type OutcomeTable } from './information.ts';
import { lackingConfirmations, neededAnyway } from './lacking.ts';
import { type LookingAhead, valueTests } from './look-ahead.ts';
import { tells, usualOutcome } from './outcome-table.ts';
import { overHypotheses } from './over-hypotheses.ts';
import type { OutcomeEffect, RankedTest } from './ranking.ts';
import { priceOf, type Stakes, testPrice } from './stakes.ts';
import type { TestModel } from './suspect-model.ts';
import type { WeighedSuspects } from './weigh.ts';
import { marginals, tableInWorlds } from './worlds.ts';

/** Bits below which a test tells nothing and is left out, and below which it is not looked at as one of a pair. */
const nothing = 0.002;
const little = 0.01;

/** A minute of waiting as a share of a minute of work, where nothing is priced. */
const waitingAsWork = 0.1;

/** How many tests are worth a reader's while. */
const shown = 10;

interface Candidate {
  readonly probing: TestModel;
  readonly outcomes: OutcomeTable;
  readonly bits: number;
  /** With its preparation, and of the work that it brings. */
  readonly minutes: number;
  readonly brings: number;
  readonly elapsed: number;
}

/** Whether the vehicle's plate states every figure that a test wants. */
const hasFigures = ({ test: { wants } }: TestModel, { job }: WeighedSuspects): boolean =>
  wants.every((figure) => {
    const { ratedPressure, ratedCurrent } = job.vehicle.air;
    return (figure === 'rated-pressure' ? ratedPressure : ratedCurrent) !== null;
  });

/** What can be done: not on record, not answered by readings, and nothing that must come first lacks. */
const isOpen = (probing: TestModel, weighed: WeighedSuspects): boolean => {
  const { evidence, withheld } = weighed;
  return (
    tells(probing) &&
    !withheld.tests.has(probing.id) &&
    !probing.test.acts.some((act) => withheld.acts.has(act)) &&
    !evidence.recorded.has(probing.id) &&
    !answeredByReadings(probing, evidence.observed) &&
    hasFigures(probing, weighed) &&
    !probing.test.notWhile.some((one) => missingConfirmations([one], probing.place, evidence).length === 0) &&
    missingConfirmations(probing.test.after, probing.place, evidence).length === 0
  );
};

/** Of what can be done that which tells something, or is wanted in any case. */
const candidatesOf = (
  open: readonly TestModel[],
  { worlds, probabilities }: WeighedSuspects,
  wanted: readonly string[],
): Candidate[] =>
  open
    .map((probing) => {
      const { test, inspects } = probing;
      const usual = inspects === null ? usualOutcome(probing) : 1;
      const outcomes = tableInWorlds(probing.outcomes, usual, worlds);
      const { minutes, setUp, brings, elapsed } = test;
      return {
        probing,
        outcomes,
        bits: expectedInformation(probabilities, outcomes),
        minutes: minutes + (setUp?.minutes ?? 0),
        brings,
        elapsed,
      };
    })
    .filter(({ bits, probing }) => bits >= nothing || wanted.includes(probing.id));

/** What a test saves where nothing may follow it, and where one more may. */
interface Saving {
  readonly alone: number;
  readonly saves: number;
}

/**
 * Expected saving of each candidate, in their order, at the price that it has beyond what must be done in any case: a test
 * that the likely repair must be confirmed by is paid for anyway. It is what the test saves alone, or with one more test after it where that
 * beats what any other test saves alone. Without that, a test that tells nothing would be credited with the good one
 * that follows it.
 */
const savings = (
  candidates: readonly Candidate[],
  { probabilities }: WeighedSuspects,
  needed: ReadonlyMap<string, number>,
  stakes: Stakes,
  all: readonly Action[],
): Saving[] => {
  const small = fewer(probabilities);
  const probes = candidates.map(({ probing: { id, test }, outcomes }): Probe => {
    const extra = 1 - (needed.get(id) ?? 0);
    return {
      id,
      cost: extra * testPrice(test, stakes),
      setUp: test.setUp && { id: test.setUp.id, cost: extra * priceOf(test.setUp.minutes, stakes) },
      outcomes: small.table(outcomes),
    };
  });
  const actions = small.actions(all);
  const value = (among: readonly Probe[], options: LookingAhead): Map<string, number> =>
    new Map(valueTests(small.probabilities, actions, among, options).map((one) => [one.probe.id, one.value]));
  const alone = value(probes, { depth: 1 });
  const own = ({ id }: Probe): number => alone.get(id) ?? 0;
  // The best first: looking ahead leaves off with what cannot beat it.
  const [best, second] = [...alone.values()].sort((a, b) => b - a);
  const beyond = (probe: Probe): number => Math.max(0, (own(probe) === best ? second : best) ?? 0);
  const paired = value(
    probes.filter((_, place) => (candidates[place]?.bits ?? 0) >= little).sort((a, b) => own(b) - own(a)),
    { depth: 2, over: beyond },
  );
  return probes.map((probe) => ({ alone: own(probe), saves: paired.get(probe.id) ?? own(probe) }));
};

const effects = ({ probing, outcomes }: Candidate, weighed: WeighedSuspects): OutcomeEffect[] => {
  const { model, worlds, probabilities, told } = weighed;
  const { hypotheses, variants } = model;
  const under = overHypotheses(probing.outcomes, variants, hypotheses.length);
  return branches(probabilities, outcomes).map(({ index, chance, after: inWorlds }) => {
    const after = marginals(worlds, inWorlds, hypotheses.length);
    const probability = Math.max(...after);
    const outcome = probing.test.outcomes[index];
    return {
      id: outcome?.id ?? '',
      title: outcome?.title ?? '',
      chance,
      leader: hypotheses[after.indexOf(probability)]?.id ?? '',
      probability,
      under: new Map(hypotheses.map(({ id }, place) => [id, under[index]?.[place] ?? 0])),
      likelihoods: told.map((place) => outcomes[index]?.[place] ?? 0),
    };
  });
};

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
 *
 * @param actions what can be done now; none where nothing is priced
 */
export const nextTests = (weighed: WeighedSuspects, actions: readonly Action[]): NextTests => {
  const { stakes } = weighed;
  const open = weighed.evidence.probings.filter((probing) => isOpen(probing, weighed));
  const ids = new Set(open.map(({ id }) => id));
  const wanted = lackingConfirmations(weighed, actions, (id) => ids.has(id));
  const candidates = candidatesOf(open, weighed, wanted);
  const needed = neededAnyway(weighed);
  const saved = stakes ? savings(candidates, weighed, needed, stakes, actions) : null;
  const pays = saved?.some(({ saves }) => saves > 0) ?? false;
  const rated = candidates.map((candidate, index) => {
    const { saves = null, alone: savesAlone = null } = saved?.[index] ?? {};
    // A test of no minutes is as good as any can be.
    const { minutes, brings, elapsed } = candidate;
    const pace = candidate.bits / Math.max(minutes + brings + waitingAsWork * elapsed, 1e-9);
    return { candidate, saves, savesAlone, merit: pays ? (saves ?? 0) : pace };
  });
  const first = ({ candidate }: (typeof rated)[number]): number =>
    !pays && wanted.includes(candidate.probing.id) ? 1 : 0;
  rated.sort(
    (a, b) =>
      first(b) - first(a) || b.merit - a.merit || (a.candidate.probing.id < b.candidate.probing.id ? -1 : 1),
  );
  return {
    paying: rated
      .filter(({ saves }) => saves !== null && saves > 0)
      .map(({ candidate }) => candidate.probing.id),
    tests: rated.slice(0, shown).map(({ candidate, saves, savesAlone }) => {
      const { test, place, id, cautions } = candidate.probing;
      return {
        id,
        title: place === null ? test.title : `${test.title}, ${place}`,
        minutes: candidate.minutes,
        brings: candidate.brings,
        elapsed: candidate.elapsed,
        bits: candidate.bits,
        saves,
        savesAlone,
        price: stakes && testPrice(candidate, stakes),
        neededAnyway: needed.get(id) ?? 0,
        cautions,
        points: test.points,
        confirms: wanted.includes(id),
        outcomes: effects(candidate, weighed),
      };
    }),
  };
};
