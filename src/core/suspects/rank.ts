import { conflictOf } from './conflict.ts';
import { type Diagnosis, diagnose } from './diagnosis.ts';
import { forAndAgainst, ledgerOf } from './ledger.ts';
import type { RankedSuspect, Ranking, WorldShare } from './ranking.ts';
import { suspectAt, type WeighedSuspects } from './weigh.ts';

/** Pairs below this are told together, since no reader looks at them one by one. */
const worthTelling = 0.001;

/** Everything that may be wrong, with its probability; they sum to 1. */
const worldShares = ({ worlds, probabilities, order }: WeighedSuspects): WorldShare[] => {
  const all = worlds.map(({ id, members }, place) => ({
    id,
    members,
    probability: probabilities[place] ?? 0,
  }));
  const singles = order.flatMap((place) =>
    all.filter(({ members }) => members.length === 1 && members[0] === place),
  );
  const pairs = all
    .filter(({ members }) => members.length > 1)
    .sort((a, b) => b.probability - a.probability || (a.id < b.id ? -1 : 1));
  const told = pairs.filter(({ probability }) => probability >= worthTelling);
  const rest = pairs.slice(told.length).reduce((sum, { probability }) => sum + probability, 0);
  return [
    ...[...singles, ...told].map(({ id, probability }) => ({ id, probability })),
    ...(rest > 0 ? [{ id: 'other-pairs', probability: rest }] : []),
  ];
};

/** A pair is named where it is so many times as probable as the best single fault. */
const beats = 3;

/** The pair that beats the best single fault by three to one; null where none does. */
export const namedPair = ({ model, worlds, probabilities }: WeighedSuspects): readonly string[] | null => {
  let single = 0;
  let pair = 0;
  let members: readonly number[] | null = null;
  for (const [place, world] of worlds.entries()) {
    const p = probabilities[place] ?? 0;
    if (world.members.length === 1) single = Math.max(single, p);
    else if (p > pair) [pair, members] = [p, world.members];
  }
  if (members === null || pair < beats * single) return null;
  return members.map((member) => model.hypotheses[member]?.id ?? '');
};

/**
 * Works out all that a worksheet shows of weighed suspects: the evidence for and against each, which tests to do next,
 * whether a part may be ordered, and which findings no one suspect explains.
 *
 * @param diagnosis what `diagnose` made of them, where it is known already
 */
export const rankSuspects = (weighed: WeighedSuspects, diagnosis: Diagnosis = diagnose(weighed)): Ranking => {
  const { model, evidence, order, priors } = weighed;
  const hypotheses = model.hypotheses.map((one, place) => ({ ...one, prior: priors[place] ?? 0 }));
  const [leader = 0, second = 0] = order;
  const suspects = order.map((place): RankedSuspect => {
    const rival = place === leader ? second : leader;
    return {
      ...suspectAt(place, weighed),
      ...forAndAgainst(place, hypotheses, evidence.rows),
      rival: hypotheses[rival]?.id ?? '',
      ledger: ledgerOf(place, rival, hypotheses, evidence.rows),
    };
  });
  return {
    suspects,
    hypotheses: worldShares(weighed),
    pair: namedPair(weighed),
    nextTests: diagnosis.next.tests,
    advice: diagnosis.advice,
    conflict: conflictOf(hypotheses, evidence.rows),
  };
};
