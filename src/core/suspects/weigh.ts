import type { Finding } from '../finding.ts';
import type { Job } from '../job.ts';
import { keyOf } from '../key.ts';
import { type Evidence, gatherEvidence } from './evidence.ts';
import { posterior } from './posterior.ts';
import type { SuspectShare } from './ranking.ts';
import type { Stakes } from './stakes.ts';
import type { SuspectModel } from './suspect-model.ts';

/**
 * How probable each suspect of a job is, and the evidence for it: what is cheap to work out, and all that the rest is
 * worked out from. Plain data.
 */
export interface WeighedSuspects {
  readonly model: SuspectModel;
  readonly evidence: Evidence;
  /** Of each hypothesis of the model, in its order. */
  readonly probabilities: readonly number[];
  /** Places of the hypotheses, the most probable first; of equals the first. */
  readonly order: readonly number[];
  /** Null without a labour rate or a cost of escalating. */
  readonly stakes: Stakes | null;
}

const stakesOf = ({ costs }: Job, { escalate }: SuspectModel): Stakes | null =>
  costs.labourRate === null || escalate === null ? null : { rate: costs.labourRate, escalate };

/**
 * Works out how probable each suspect is. Exactly one suspect is taken to be at fault, or something else:
 * p ∝ prior × Π P(evidence | suspect), one factor for each group of findings and each test on record. What was not
 * taken, is stale or is waived is no evidence.
 *
 * @returns null where no pack has suspects for this vehicle, or no group rests on a finding that is out
 */
export const weighSuspects = (
  job: Job,
  model: SuspectModel,
  findings: readonly Finding[],
): WeighedSuspects | null => {
  if (model.hypotheses.length === 0) return null;
  const evidence = gatherEvidence(job, model, findings);
  if (!evidence.anythingOut) return null;
  const probabilities = posterior(
    model.hypotheses.map(({ prior }) => prior),
    evidence.rows.map(({ row }) => row),
  );
  const order = probabilities
    .map((_, place) => place)
    .sort((a, b) => (probabilities[b] ?? 0) - (probabilities[a] ?? 0) || a - b);
  return { model, evidence, probabilities, order, stakes: stakesOf(job, model) };
};

/** The suspect at a place of the model's hypotheses, with its probability. */
export const suspectAt = (place: number, { model, probabilities }: WeighedSuspects): SuspectShare => {
  const one = model.hypotheses[place];
  if (!one) throw new Error(`there is no hypothesis ${place}`);
  return {
    id: one.id,
    title: one.title,
    component: one.suspect && keyOf(one.suspect.component, one.corner),
    isPart: one.suspect?.isPart ?? false,
    probability: probabilities[place] ?? 0,
  };
};
