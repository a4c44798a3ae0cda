import type { Act } from '../acts.ts';
import type { Finding } from '../finding.ts';
import type { Job } from '../job.ts';
import { keyOf } from '../key.ts';
import { isRepair } from '../steps/staleness.ts';
import { type Evidence, gatherEvidence } from './evidence/evidence.ts';
import { logsOf, posteriorOfLogs } from './posterior.ts';
import type { SuspectShare } from './ranking.ts';
import { priorsOf } from './recent-work.ts';
import type { Stakes } from './stakes.ts';
import type { SuspectModel } from './suspect-model.ts';
import { marginals, type World, worldsOf } from './worlds.ts';

/**
 * How probable each suspect of a job is, and the evidence for it: what is cheap to work out, and all that the rest is
 * worked out from.
 */
export interface WeighedSuspects {
  readonly model: SuspectModel;
  readonly evidence: Evidence;
  /** Before any evidence, in the order of the model's hypotheses. */
  readonly priors: readonly number[];
  /** Single faults, something else, and pairs of faults. */
  readonly worlds: readonly World[];
  /** Of each world, in their order; they sum to 1. */
  readonly probabilities: readonly number[];
  /** Natural logarithms of the likelihoods of each row of evidence, in the order of the worlds. */
  readonly logs: readonly (readonly number[])[];
  /** Of each hypothesis of the model, alone or as one of a pair. */
  readonly shares: readonly number[];
  /** Places of the hypotheses, the most probable first; of equals the first. */
  readonly order: readonly number[];
  /** Null without a labour rate or a cost of escalating. */
  readonly stakes: Stakes | null;
  /** Figures of the vehicle's plate, which some tests want. */
  readonly job: Job;
  readonly withheld: Withheld;
}

/** Tests that are not offered: those that somebody set aside, and those that take a forbidden act. */
export interface Withheld {
  readonly tests: { readonly has: (id: string) => boolean };
  readonly acts: ReadonlySet<Act>;
}

const nothingWithheld: Withheld = { tests: new Map(), acts: new Set() };

/** After so many repairs of one visit that did not help, giving the job away costs nothing more. Judgement. */
const mostRepairs = 3;

const stakesOf = ({ costs, terms: shop }: Job, { terms }: SuspectModel, repairs: number): Stakes | null => {
  const rate = costs.labourRate ?? terms.usualRate;
  if (rate === null || terms.escalate === null) return null;
  const downtime = shop.downtime ?? terms.downtime;
  const escalate = repairs >= mostRepairs ? 0 : terms.escalate;
  return { rate, assumed: costs.labourRate === null, downtime, escalate };
};

/**
 * Works out how probable each suspect is: p ∝ prior × Π P(evidence | fault), one factor for each group of findings and
 * each test on record. One suspect is at fault, or two that explain different evidence, or something else. What was not
 * taken, is stale or is waived is no evidence.
 *
 * @returns null where no pack has suspects for this vehicle, or nothing says that anything is wrong
 */
export const weighSuspects = (
  job: Job,
  model: SuspectModel,
  findings: readonly Finding[],
  withheld: Withheld = nothingWithheld,
): WeighedSuspects | null => {
  if (model.hypotheses.length === 0) return null;
  const repairs = job.log.filter((entry) => isRepair(entry) && !entry.failed);
  // What the driver said was said of the vehicle as it came.
  const told = repairs.length > 0 ? { ...job, symptoms: [] } : job;
  const evidence = gatherEvidence(told, model, findings);
  if (!evidence.anythingOut) return null;
  const priors = priorsOf(model.hypotheses, job);
  const worlds = worldsOf(model.hypotheses, priors, evidence.rows);
  const logs = evidence.rows.map(({ inWorlds }) => logsOf(inWorlds(worlds)));
  const probabilities = posteriorOfLogs(
    worlds.map(({ prior }) => prior),
    logs,
  );
  const shares = marginals(worlds, probabilities, model.hypotheses.length);
  const order = shares.map((_, place) => place).sort((a, b) => (shares[b] ?? 0) - (shares[a] ?? 0) || a - b);
  return {
    model,
    evidence,
    priors,
    worlds,
    probabilities,
    logs,
    shares,
    order,
    stakes: stakesOf(job, model, repairs.length),
    job,
    withheld,
  };
};

/** The suspect at a place of the model's hypotheses, with its probability. */
export const suspectAt = (place: number, { model, shares }: WeighedSuspects): SuspectShare => {
  const one = model.hypotheses[place];
  if (!one) throw new Error(`there is no hypothesis ${place}`);
  return {
    id: one.id,
    title: one.title,
    component: one.suspect && keyOf(one.suspect.component, one.place),
    isPart: one.suspect?.isPart ?? false,
    probability: shares[place] ?? 0,
  };
};
