import { adviceOn } from './advice.ts';
import { conflictOf } from './conflict.ts';
import { forAndAgainst, ledgerOf } from './ledger.ts';
import { nextTests } from './next-tests.ts';
import type { RankedSuspect, Ranking, WorldShare } from './ranking.ts';
import { modeAt, suspectAt, type WeighedSuspects } from './weigh.ts';

/** Pairs below this are told together, since no reader looks at them one by one. */
const worthTelling = 0.001;

interface Fault {
  readonly id: string;
  readonly members: readonly number[];
  readonly probability: number;
}

/** Each fault and each pair of faults once, in whatever way it is so. */
const faultsOf = ({ worlds, probabilities }: WeighedSuspects): Fault[] => {
  const faults = new Map<string, Fault>();
  for (const [place, { id, members }] of worlds.entries()) {
    const before = faults.get(id)?.probability ?? 0;
    faults.set(id, { id, members, probability: before + (probabilities[place] ?? 0) });
  }
  return [...faults.values()];
};

/** Everything that may be wrong, with its probability; they sum to 1. */
const worldShares = (weighed: WeighedSuspects): WorldShare[] => {
  const { order } = weighed;
  const all = faultsOf(weighed);
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
export const namedPair = (weighed: WeighedSuspects): readonly string[] | null => {
  let single = 0;
  let pair = 0;
  let members: readonly number[] | null = null;
  for (const fault of faultsOf(weighed)) {
    if (fault.members.length === 1) single = Math.max(single, fault.probability);
    else if (fault.probability > pair) [pair, members] = [fault.probability, fault.members];
  }
  if (members === null || pair < beats * single) return null;
  return members.map((member) => weighed.model.hypotheses[member]?.id ?? '');
};

/**
 * Works out all that a worksheet shows of weighed suspects: the evidence for and against each, which tests to do next,
 * whether a part may be ordered, and which findings no one suspect explains. Weighing the tests takes most of the time.
 */
export const rankSuspects = (weighed: WeighedSuspects): Ranking => {
  const { model, rows, order, priors } = weighed;
  const hypotheses = model.hypotheses.map((one, place) => ({ ...one, prior: priors[place] ?? 0 }));
  const [leader = 0, second = 0] = order;
  const suspects = order.map((place): RankedSuspect => {
    const rival = place === leader ? second : leader;
    return {
      ...suspectAt(place, weighed),
      mode: modeAt(place, weighed),
      ...forAndAgainst(place, hypotheses, rows),
      rival: hypotheses[rival]?.id ?? '',
      ledger: ledgerOf(place, rival, hypotheses, rows),
    };
  });
  const { tests, paying } = nextTests(weighed);
  return {
    suspects,
    hypotheses: worldShares(weighed),
    pair: namedPair(weighed),
    nextTests: tests,
    advice: adviceOn(weighed, paying),
    conflict: conflictOf(hypotheses, rows),
  };
};
