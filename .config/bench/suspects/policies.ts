import { parseKey } from '../../../src/core/key.ts';
import type { PreparedPacks } from '../../../src/core/prepare/prepared-packs.ts';
import { type Hypothesis, hypothesesOf } from '../../../src/core/suspects/hypotheses.ts';
import { leastRisk } from '../../../src/core/suspects/look-ahead.ts';
import type { Ranking } from '../../../src/core/suspects/ranking.ts';
import { actionsOf, escalating, priceOf, type Stakes } from '../../../src/core/suspects/stakes.ts';
import { answerOf, looking } from './answers/answers.ts';
import type { Bench } from './answers/bench.ts';
import { judgeText, labourRate, readText } from './judging.ts';

/** What a policy came to at one vehicle, in the currency of its shop. */
export interface Outcome {
  readonly cost: number;
  readonly minutes: number;
  readonly tests: number;
  readonly end: 'right' | 'wrong' | 'escalated';
  /** The part that was replaced, or `escalate`. */
  readonly action: string;
  /** Conditions of the advice that were not met where the job was given away. */
  readonly lacks: readonly string[];
}

/** A job on the bench, with the tests that were done so far. */
export interface Case {
  readonly text: string;
  readonly bench: Bench;
  readonly packs: PreparedPacks;
}

interface Terms {
  readonly hypotheses: readonly Hypothesis[];
  readonly stakes: Stakes;
}

const termsOf = ({ text, packs }: Case): Terms => {
  const { vehicle } = readText(text, packs);
  const terms = packs.packs.flatMap(({ suspectTerms }) => suspectTerms ?? [])[0];
  const share = terms?.somethingElse ?? 0.07;
  return {
    hypotheses: hypothesesOf(
      packs.packs.flatMap(({ suspects }) => suspects),
      vehicle,
      share,
    ),
    stakes: {
      rate: labourRate,
      escalate: terms?.escalate ?? 0,
      assumed: false,
      downtime: terms?.downtime ?? 10,
    },
  };
};

/** Attention and waiting that a policy has spent, minutes. */
interface Spent {
  readonly minutes: number;
  readonly elapsed: number;
  readonly tests: number;
}

const nothingSpent: Spent = { minutes: 0, elapsed: 0, tests: 0 };

/** The excess cost of one action against what is true, as the ranking counts losses itself. */
const settle = (one: Case, action: string, spent: Spent, lacks: readonly string[] = []): Outcome => {
  const { hypotheses, stakes } = termsOf(one);
  const truths = one.bench.member.troubles.map(({ truth }) => truth);
  const members = hypotheses.flatMap(({ id }, place) => (truths.includes(id) ? [place] : []));
  const world = [{ members }];
  const [loss] = actionsOf(hypotheses, world, stakes).find(({ id }) => id === action)?.losses ?? [];
  if (loss === undefined || members.length !== truths.length)
    throw new Error(`no loss of ${action} where ${truths.join(' and ')} is wrong`);
  const right = loss === 0 && action !== escalating;
  return {
    cost: loss + priceOf(spent.minutes, stakes) + (spent.elapsed / 60) * stakes.downtime,
    minutes: spent.minutes,
    tests: spent.tests,
    end: action === escalating ? 'escalated' : right ? 'right' : 'wrong',
    action,
    lacks,
  };
};

const withAnswer = (text: string, test: string, found: string, order: number): string => {
  const minute = String(order % 60).padStart(2, '0');
  const hour = String(9 + Math.floor(order / 60)).padStart(2, '0');
  const [did, what] = test.startsWith(looking) ? ['inspected', test.slice(looking.length)] : ['tested', test];
  return `${text}  - {at: 2026-03-03T${hour}:${minute}, did: ${did}, what: ${what}, found: ${found}}\n`;
};

/** Minutes that are spent on a look where a pack does not say. */
const lookMinutes = 3;

/** What a test takes, what it prepares unless that stands already, the work that it brings and the waiting. */
const spend = (spent: Spent, test: string, { packs }: Case, prepared: Set<string>): Spent => {
  if (test.startsWith(looking)) {
    const component = parseKey(test.slice(looking.length)).base;
    const suspect = packs.packs
      .flatMap(({ suspects }) => suspects)
      .find((one) => one.component === component && one.repaired);
    const minutes = suspect?.inspect.minutes ?? lookMinutes;
    return { ...spent, minutes: spent.minutes + minutes, tests: spent.tests + 1 };
  }
  const { base } = parseKey(test);
  const terms = packs.tests.find(({ id }) => id === test) ?? packs.tests.find(({ id }) => id === base);
  if (!terms) throw new Error(`no pack has the test ${test}`);
  const { setUp } = terms;
  const first = setUp && !prepared.has(setUp.id) ? setUp.minutes : 0;
  if (setUp) prepared.add(setUp.id);
  return {
    minutes: spent.minutes + terms.minutes + first + terms.brings,
    elapsed: spent.elapsed + terms.elapsed,
    tests: spent.tests + 1,
  };
};

const rankingOf = ({ text, packs }: Case): Ranking => {
  const { ranking } = judgeText(text, packs);
  if (!ranking) throw new Error('nothing is suspected where something was');
  return ranking;
};

/** The conditions that an advice lacks; of something else there is none to give. */
const unmetOf = ({ advice }: Ranking): string[] =>
  advice?.conditions.filter(({ met }) => !met).map(({ id }) => id) ?? ['a part to replace'];

/** The next test: one that pays, else one that confirms what is about to be repaired. */
const adviseTest = ({ nextTests }: Ranking): string | null => {
  const [best] = nextTests;
  return best && ((best.saves ?? 0) > 0 || best.confirms) ? best.id : null;
};

const mostTests = 40;

/** Does the tests that are advised until a part may be ordered, and gives the job away where neither is advised. */
export const followAdvice = (start: Case, ranking: Ranking): Outcome => {
  const prepared = new Set<string>();
  let [one, now, spent] = [start, ranking, nothingSpent];
  for (;;) {
    if (now.advice?.met) return settle(one, now.advice.suspect, spent);
    const test = adviseTest(now);
    if (test === null || spent.tests >= mostTests) return settle(one, escalating, spent, unmetOf(now));
    const answer = answerOf(test, one.bench);
    one = { ...one, text: withAnswer(one.text, test, answer, spent.tests) };
    spent = spend(spent, test, one, prepared);
    now = rankingOf(one);
  }
};

/** Does every test that still tells anything, then whatever risks least. */
export const testEverything = (start: Case, ranking: Ranking): Outcome => {
  const prepared = new Set<string>();
  let [one, now, spent] = [start, ranking, nothingSpent];
  while (now.nextTests.length > 0) {
    for (const { id } of now.nextTests) {
      one = { ...one, text: withAnswer(one.text, id, answerOf(id, one.bench), spent.tests) };
      spent = spend(spent, id, one, prepared);
    }
    now = rankingOf(one);
  }
  const { hypotheses, stakes } = termsOf(one);
  const chance = new Map(now.suspects.map(({ id, probability }) => [id, probability]));
  const singles = hypotheses.map((_, place) => ({ members: [place] }));
  const { action } = leastRisk(
    hypotheses.map(({ id }) => chance.get(id) ?? 0),
    actionsOf(hypotheses, singles, stakes),
  );
  return settle(one, action.id, spent);
};

/** Replaces the control module, whatever is wrong. */
export const replaceModule = (start: Case): Outcome => settle(start, 'control-module', nothingSpent);

/** Replaces the most likely part as it stands after the readings. */
export const replaceLikeliest = (start: Case, { suspects }: Ranking): Outcome => {
  const part = suspects.find(({ id }) => id !== 'something-else');
  return settle(start, part?.id ?? escalating, nothingSpent);
};
