import type { Finding } from '../finding.ts';
import type { Job } from '../job.ts';
import { keyOf } from '../key.ts';
import { lazy } from '../lazy.ts';
import type { Pack } from '../pack.ts';
import { adviceOn } from './advice.ts';
import { castOf } from './cast.ts';
import { conflictOf } from './conflict.ts';
import { gatherEvidence } from './evidence.ts';
import type { Hypothesis } from './hypotheses.ts';
import { forAndAgainst, ledgerOf } from './ledger.ts';
import { nextTests } from './next-tests.ts';
import { posterior } from './posterior.ts';
import type { RankedSuspect, Ranking } from './ranking.ts';
import type { Stakes } from './stakes.ts';

const stakesOf = ({ costs }: Job, packs: readonly Pack[]): Stakes | null => {
  const escalate = packs.map(({ suspectTerms }) => suspectTerms?.escalate).find((one) => one != null);
  return costs.labourRate === null || escalate == null ? null : { rate: costs.labourRate, escalate };
};

/** Places of the hypotheses, the most probable first; of equals the first. */
const inOrder = (probabilities: readonly number[]): number[] =>
  probabilities
    .map((_, place) => place)
    .sort((a, b) => (probabilities[b] ?? 0) - (probabilities[a] ?? 0) || a - b);

/**
 * What could explain the findings of a job, how probable each is, and what to do next. Exactly one suspect is taken to
 * be at fault, or something else: p ∝ prior × Π P(evidence | suspect), one factor for each group of findings and each
 * test on record. What was not taken, is stale or is waived is no evidence.
 *
 * @param packs in the job's order; the first that says how much of something else to expect, and what escalating
 *   costs, speaks for all
 * @param findings of the job
 * @returns null where no pack has suspects for this vehicle, or no group rests on a finding that is out
 */
export const rankSuspects = (
  job: Job,
  packs: readonly Pack[],
  findings: readonly Finding[],
): Ranking | null => {
  const { hypotheses } = castOf(packs, job.vehicle);
  if (hypotheses.length === 0) return null;
  const evidence = gatherEvidence(job, packs, findings, hypotheses);
  if (!evidence.anythingOut) return null;

  const probabilities = posterior(
    hypotheses.map(({ prior }) => prior),
    evidence.rows.map(({ row }) => row),
  );
  const order = inOrder(probabilities);
  const [leader = 0, second = 0] = order;
  const ranked = (place: number, one: Hypothesis): RankedSuspect => {
    const rival = place === leader ? second : leader;
    const weighed = lazy(() => forAndAgainst(place, hypotheses, evidence.rows));
    const ledger = lazy(() => ledgerOf(place, rival, hypotheses, evidence.rows));
    return {
      id: one.id,
      title: one.title,
      component: one.suspect && keyOf(one.suspect.component, one.corner),
      isPart: one.suspect?.isPart ?? false,
      probability: probabilities[place] ?? 0,
      get for() {
        return weighed().for;
      },
      get against() {
        return weighed().against;
      },
      rival: hypotheses[rival]?.id ?? '',
      get ledger() {
        return ledger();
      },
    };
  };
  const stakes = stakesOf(job, packs);
  const tests = lazy(() => nextTests(packs, evidence, hypotheses, probabilities, stakes));
  const advice = lazy(
    () => stakes && adviceOn(leader, hypotheses, probabilities, evidence, () => tests().paying, stakes),
  );
  const suspects = lazy(() =>
    order.flatMap((place) => {
      const one = hypotheses[place];
      return one ? [ranked(place, one)] : [];
    }),
  );
  const conflict = lazy(() => conflictOf(hypotheses, evidence.rows));
  return {
    get suspects() {
      return suspects();
    },
    get nextTests() {
      return tests().tests;
    },
    get advice() {
      return advice();
    },
    get conflict() {
      return conflict();
    },
  };
};
