import type { RankedSuspect, RankedTest, Ranking } from '../../core/suspects/ranking.ts';

const suspectJson = (suspect: RankedSuspect) => ({
  id: suspect.id,
  title: suspect.title,
  probability: suspect.probability,
  mode: suspect.mode,
  for: suspect.for,
  against: suspect.against,
  rival: suspect.rival,
  ledger: suspect.ledger,
  wrongPart: suspect.wrongPart,
  mends: suspect.mends,
});

const testJson = (test: RankedTest) => ({
  id: test.id,
  title: test.title,
  minutes: test.minutes,
  elapsed: test.elapsed,
  brings: test.brings,
  bits: test.bits,
  saves: test.saves,
  savesAlone: test.savesAlone,
  price: test.price,
  neededAnyway: test.neededAnyway,
  outcomes: test.outcomes.map(({ id, title, chance, leader, probability, likelihoods }) => ({
    id,
    title,
    chance,
    leader,
    probability,
    likelihoods,
  })),
});

/** Suspects and tests as the machine output has them: all that a probability and a saving were worked out from. */
export const rankingJson = (ranking: Ranking | null) => ({
  suspects: (ranking?.suspects ?? []).map(suspectJson),
  hypotheses: ranking?.hypotheses ?? [],
  evidence: ranking?.evidence ?? [],
  pair: ranking?.pair ?? null,
  stakes: ranking?.stakes ?? null,
  nextTests: (ranking?.nextTests ?? []).map(testJson),
  advice: ranking?.advice ?? null,
});
