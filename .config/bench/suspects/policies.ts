import { parseKey } from '../../../src/core/key.ts';
import type { PreparedPacks } from '../../../src/core/prepare/prepared-packs.ts';
import { hypothesesOf } from '../../../src/core/suspects/hypotheses.ts';
import { leastRisk } from '../../../src/core/suspects/look-ahead.ts';
import type { Ranking } from '../../../src/core/suspects/ranking.ts';
import { actionsOf, escalating, priceOf } from '../../../src/core/suspects/stakes.ts';
import { answerOf, type Bench } from './answers.ts';
import { judgeText, labourRate, readText } from './judging.ts';

/** What a policy came to at one vehicle, in the currency of its shop. */
export interface Outcome {
  readonly cost: number;
  readonly minutes: number;
  readonly tests: number;
  /** `right`, `wrong` or `escalated`. */
  readonly end: 'right' | 'wrong' | 'escalated';
  /** Conditions of the advice that were not met where the job was given away. */
  readonly lacks: readonly string[];
}

/** A job on the bench, with the tests that were done so far. */
export interface Case {
  readonly text: string;
  readonly bench: Bench;
  readonly packs: PreparedPacks;
}

const termsOf = ({ text, packs }: Case) => {
  const { vehicle } = readText(text, packs);
  const share = packs.packs
    .map(({ suspectTerms }) => suspectTerms?.somethingElse)
    .find((one) => one !== undefined);
  const hypotheses = hypothesesOf(
    packs.packs.flatMap(({ suspects }) => suspects),
    vehicle,
    share ?? 0.07,
  );
  const escalate =
    packs.packs.map(({ suspectTerms }) => suspectTerms?.escalate).find((one) => one != null) ?? 0;
  const worlds = hypotheses.map((_, place) => ({ members: [place] }));
  return { hypotheses, worlds, stakes: { rate: labourRate, escalate, assumed: false, downtime: 10 } };
};

/** The excess cost of one action against what is true, as the ranking counts losses itself. */
const settle = (
  one: Case,
  action: string,
  minutes: number,
  tests: number,
  lacks: readonly string[] = [],
): Outcome => {
  const { hypotheses, worlds, stakes } = termsOf(one);
  const truth = hypotheses.findIndex(({ id }) => id === one.bench.member.truth);
  const loss = actionsOf(hypotheses, worlds, stakes).find(({ id }) => id === action)?.losses[truth];
  if (loss === undefined) throw new Error(`no loss of ${action} where ${one.bench.member.truth} is wrong`);
  const end = action === escalating ? 'escalated' : action === one.bench.member.truth ? 'right' : 'wrong';
  return { cost: loss + priceOf(minutes, stakes), minutes, tests, end, lacks };
};

/** What the name of a look at a component begins with. */
const looking = 'inspected ';

const withAnswer = (text: string, test: string, found: string, order: number): string => {
  const minute = String(order % 60).padStart(2, '0');
  const hour = String(9 + Math.floor(order / 60)).padStart(2, '0');
  const [did, what] = test.startsWith(looking) ? ['inspected', test.slice(looking.length)] : ['tested', test];
  return `${text}  - {at: 2026-03-03T${hour}:${minute}, did: ${did}, what: ${what}, found: ${found}}\n`;
};

/** What a look takes where the packs do not say. */
const lookMinutes = 3;

/** Minutes of a test, and of what it prepares unless that stands already. */
const minutesOf = (test: string, { packs }: Case, prepared: Set<string>): number => {
  if (test.startsWith(looking)) return lookMinutes;
  const { base } = parseKey(test);
  const terms = packs.tests.find(({ id }) => id === test) ?? packs.tests.find(({ id }) => id === base);
  if (!terms) throw new Error(`no pack has the test ${test}`);
  const { setUp } = terms;
  const first = setUp && !prepared.has(setUp.id) ? setUp.minutes : 0;
  if (setUp) prepared.add(setUp.id);
  return terms.minutes + first;
};

const rankingOf = ({ text, packs }: Case): Ranking => {
  const { ranking } = judgeText(text, packs);
  if (!ranking) throw new Error('nothing is suspected where something was');
  return ranking;
};

/** The conditions that an advice lacks; of something else there is none to give. */
const unmetOf = ({ advice }: Ranking): string[] =>
  advice?.conditions.filter(({ met }) => !met).map(({ id }) => id) ?? ['a part to replace'];

/** The next test: one that pays, else one whose outcome the advice still lacks. */
const adviseTest = ({ nextTests, advice }: Ranking): string | null => {
  const [best] = nextTests;
  if (best && (best.saves ?? 0) > 0) return best.id;
  const lacking = advice?.conditions.find(({ id }) => id === 'confirmed')?.lacks ?? [];
  return nextTests.find(({ id }) => lacking.includes(id))?.id ?? null;
};

/** Does the tests that are advised until a part may be ordered, and gives the job away where neither is advised. */
export const followAdvice = (start: Case, ranking: Ranking): Outcome => {
  const prepared = new Set<string>();
  let [one, now, minutes, tests] = [start, ranking, 0, 0];
  for (;;) {
    if (now.advice?.met) return settle(one, now.advice.suspect, minutes, tests);
    const test = adviseTest(now);
    if (test === null) return settle(one, escalating, minutes, tests, unmetOf(now));
    minutes += minutesOf(test, one, prepared);
    one = { ...one, text: withAnswer(one.text, test, answerOf(test, one.bench), tests) };
    tests += 1;
    now = rankingOf(one);
  }
};

/** Does every test that still tells anything, then whatever risks least. */
export const testEverything = (start: Case, ranking: Ranking): Outcome => {
  const prepared = new Set<string>();
  let [one, now, minutes, tests] = [start, ranking, 0, 0];
  while (now.nextTests.length > 0) {
    for (const { id } of now.nextTests) {
      minutes += minutesOf(id, one, prepared);
      one = { ...one, text: withAnswer(one.text, id, answerOf(id, one.bench), tests) };
      tests += 1;
    }
    now = rankingOf(one);
  }
  const { hypotheses, worlds, stakes } = termsOf(one);
  const chance = new Map(now.suspects.map(({ id, probability }) => [id, probability]));
  const { action } = leastRisk(
    hypotheses.map(({ id }) => chance.get(id) ?? 0),
    actionsOf(hypotheses, worlds, stakes),
  );
  return settle(one, action.id, minutes, tests);
};

/** Replaces the control module, whatever is wrong. */
export const replaceModule = (start: Case): Outcome => settle(start, 'control-module', 0, 0);

/** Replaces the most likely part as it stands after the readings. */
export const replaceLikeliest = (start: Case, { suspects }: Ranking): Outcome => {
  const part = suspects.find(({ id }) => id !== 'something-else');
  return settle(start, part?.id ?? escalating, 0, 0);
};
