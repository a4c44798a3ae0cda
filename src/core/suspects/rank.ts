import { conflictOf } from './conflict.ts';
import { type Diagnosis, diagnose } from './diagnosis.ts';
import { forAndAgainst, ledgerOf } from './ledger.ts';
import type { EvidenceShare, RankedSuspect, Ranking, WorldShare } from './ranking.ts';
import { isMendedBy, wrongPartCost } from './stakes.ts';
import { modeAt, modeName, suspectAt, type WeighedSuspects } from './weigh.ts';

/** Everything that may be wrong, in each way in which it may be so, with its probability; they sum to 1. */
const worldShares = ({ model, worlds, probabilities, told }: WeighedSuspects): WorldShare[] =>
  told.map((place) => ({
    id: worlds[place]?.id ?? '',
    modes: (worlds[place]?.variants ?? []).map((variant) => modeName(model.variants[variant])),
    prior: worlds[place]?.prior ?? 0,
    probability: probabilities[place] ?? 0,
  }));

const evidenceShares = ({ evidence, logs, told }: WeighedSuspects): EvidenceShare[] =>
  evidence.pieces.map(({ id, title, from, observed }, row) => ({
    group: id,
    title,
    from,
    observed,
    likelihoods: told.map((place) => Math.exp(logs[row]?.[place] ?? 0)),
  }));

interface Fault {
  readonly members: readonly number[];
  readonly probability: number;
}

/** Each fault and each pair of faults once, in whatever way it is so. */
const faultsOf = ({ worlds, probabilities }: WeighedSuspects): Fault[] => {
  const faults = new Map<string, Fault>();
  for (const [place, { id, members }] of worlds.entries()) {
    const before = faults.get(id)?.probability ?? 0;
    faults.set(id, { members, probability: before + (probabilities[place] ?? 0) });
  }
  return [...faults.values()];
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
 * whether a part may be ordered, and which findings no one suspect explains.
 *
 * @param diagnosis what `diagnose` made of them, where it is known already
 */
export const rankSuspects = (weighed: WeighedSuspects, diagnosis: Diagnosis = diagnose(weighed)): Ranking => {
  const { model, rows, order, priors, stakes } = weighed;
  const hypotheses = model.hypotheses.map((one, place) => ({ ...one, prior: priors[place] ?? 0 }));
  const [leader = 0, second = 0] = order;
  const suspects = order.map((place): RankedSuspect => {
    const rival = place === leader ? second : leader;
    const one = model.hypotheses[place];
    const mends = one ? model.hypotheses.filter((other) => isMendedBy(other, one)) : [];
    return {
      ...suspectAt(place, weighed),
      mode: modeAt(place, weighed),
      ...forAndAgainst(place, hypotheses, rows),
      rival: hypotheses[rival]?.id ?? '',
      ledger: ledgerOf(place, rival, hypotheses, rows),
      wrongPart: one?.suspect && stakes ? wrongPartCost(one, stakes) : null,
      mends: mends.map(({ id }) => id),
    };
  });
  return {
    suspects,
    hypotheses: worldShares(weighed),
    evidence: evidenceShares(weighed),
    pair: namedPair(weighed),
    nextTests: diagnosis.next.tests,
    advice: diagnosis.advice,
    conflict: conflictOf(hypotheses, rows),
    stakes,
  };
};
