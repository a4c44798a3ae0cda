import { adviceOn } from './advice.ts';
import { conflictOf } from './conflict.ts';
import { forAndAgainst, ledgerOf } from './ledger.ts';
import { nextTests } from './next-tests.ts';
import type { RankedSuspect, Ranking } from './ranking.ts';
import { suspectAt, type WeighedSuspects } from './weigh.ts';

/**
 * Works out all that a worksheet shows of weighed suspects: the evidence for and against each, which tests to do next,
 * whether a part may be ordered, and which findings no one suspect explains. Weighing the tests takes most of the time.
 */
export const rankSuspects = (weighed: WeighedSuspects): Ranking => {
  const { model, evidence, order } = weighed;
  const { hypotheses } = model;
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
  const { tests, paying } = nextTests(weighed);
  return {
    suspects,
    nextTests: tests,
    advice: adviceOn(weighed, paying),
    conflict: conflictOf(hypotheses, evidence.rows),
  };
};
