import type { Act } from '../acts.ts';
import type { Finding } from '../finding.ts';
import type { Job } from '../job.ts';
import { keyOf } from '../key.ts';
import { isRepair, mends } from '../steps/staleness.ts';
import { type Evidence, gatherEvidence, type Piece } from './evidence/evidence.ts';
import type { Variant } from './hypotheses.ts';
import { type LikelihoodRow, logsOf, posteriorOfLogs } from './posterior.ts';
import type { RankedSuspect, SuspectShare } from './ranking.ts';
import { priorsOf } from './recent-work.ts';
import type { Stakes } from './stakes.ts';
import type { SuspectModel } from './suspect-model.ts';
import { marginals, type World, worldsOf } from './worlds.ts';

/** A piece of evidence as it bears on each hypothesis, taken in the way in which it is likeliest to be so. */
export interface EvidenceRow extends Omit<Piece, 'row' | 'inWorlds'> {
  /** Likelihoods in the order of the hypotheses. */
  readonly row: LikelihoodRow;
}

/**
 * How probable each suspect of a job is, and the evidence for it: what is cheap to work out, and all that the rest is
 * worked out from.
 */
export interface WeighedSuspects {
  readonly model: SuspectModel;
  readonly evidence: Evidence;
  /** Of each hypothesis the place of the variant that explains the evidence best. */
  readonly likeliest: readonly number[];
  /** Before any evidence, of each hypothesis in that variant. */
  readonly priors: readonly number[];
  /** The pieces of evidence as they bear on the hypotheses. */
  readonly rows: readonly EvidenceRow[];
  /** Single faults, something else, and pairs of faults. */
  readonly worlds: readonly World[];
  /** Of each world, in their order; they sum to 1. */
  readonly probabilities: readonly number[];
  /** Places of the worlds as they are told: single faults in their order, then pairs, the most probable first. */
  readonly told: readonly number[];
  /** Natural logarithms of the likelihoods of each piece of evidence, in the order of the worlds. */
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

/** Of each hypothesis the variant that is likeliest after all the evidence, alone at fault. */
const likeliestOf = (
  variants: readonly Variant[],
  worlds: readonly World[],
  probabilities: readonly number[],
  count: number,
): number[] => {
  const best = new Array<number>(count).fill(-1);
  const chance = new Array<number>(count).fill(-1);
  for (const [place, world] of worlds.entries()) {
    const [variant = 0, second] = world.variants;
    const p = probabilities[place] ?? 0;
    const of = variants[variant]?.of ?? 0;
    if (second !== undefined || p <= (chance[of] ?? -1)) continue;
    best[of] = variant;
    chance[of] = p;
  }
  return best;
};

/** Places of the worlds: single faults in the order of their hypotheses, then pairs, the most probable first. */
const inOrder = (
  worlds: readonly World[],
  probabilities: readonly number[],
  order: readonly number[],
): number[] => {
  const singles = new Map<number, number[]>();
  const pairs: number[] = [];
  for (const [place, { members }] of worlds.entries()) {
    const [only, other] = members;
    if (only !== undefined && other === undefined) singles.set(only, [...(singles.get(only) ?? []), place]);
    else pairs.push(place);
  }
  const idOf = (place: number): string => worlds[place]?.id ?? '';
  pairs.sort((a, b) => (probabilities[b] ?? 0) - (probabilities[a] ?? 0) || (idOf(a) < idOf(b) ? -1 : 1));
  return [...order.flatMap((place) => singles.get(place) ?? []), ...pairs];
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
  const repairs = job.log.filter((entry) => isRepair(entry) && mends(entry) && !entry.failed);
  const evidence = gatherEvidence(job, model, findings);
  if (!evidence.anythingOut) return null;
  const { hypotheses, variants } = model;
  const every = priorsOf(variants, job);
  const worlds = worldsOf(variants, every, evidence.pieces);
  const logs = evidence.pieces.map(({ inWorlds }) => logsOf(inWorlds(worlds)));
  const probabilities = posteriorOfLogs(
    worlds.map(({ prior }) => prior),
    logs,
  );
  const shares = marginals(worlds, probabilities, hypotheses.length);
  const likeliest = likeliestOf(variants, worlds, probabilities, hypotheses.length);
  const inLikeliest = (values: readonly number[]): number[] => likeliest.map((place) => values[place] ?? 0);
  const order = shares.map((_, place) => place).sort((a, b) => (shares[b] ?? 0) - (shares[a] ?? 0) || a - b);
  return {
    model,
    evidence,
    likeliest,
    priors: inLikeliest(every),
    rows: evidence.pieces.map(({ inWorlds: _, row, ...piece }) => ({ ...piece, row: inLikeliest(row) })),
    worlds,
    probabilities,
    told: inOrder(worlds, probabilities, order),
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

/** A way of failing, with the corner where it is one of several: `one-input.LR`; null where there is one way only. */
export const modeName = (variant: Variant | undefined): string | null => {
  if (!variant?.mode) return null;
  return variant.mode.perCorner ? keyOf(variant.mode.id, variant.place) : variant.mode.id;
};

/** The likeliest of the ways in which a suspect fails, with its share; null where it fails in one way only. */
export const modeAt = (
  place: number,
  { model, worlds, probabilities, likeliest }: WeighedSuspects,
): RankedSuspect['mode'] => {
  const best = model.variants[likeliest[place] ?? -1];
  if (!best?.mode) return null;
  let own = 0;
  let all = 0;
  for (const [at, { members, variants }] of worlds.entries()) {
    if (!members.includes(place)) continue;
    all += probabilities[at] ?? 0;
    if (variants.includes(likeliest[place] ?? -1)) own += probabilities[at] ?? 0;
  }
  const at = best.place === model.hypotheses[place]?.place ? '' : `, ${best.place}`;
  return {
    id: modeName(best) ?? '',
    title: `${best.mode.title}${at}`,
    probability: all > 0 ? own / all : best.part,
  };
};
