import type { Stakes } from './stakes.ts';

/** One piece of evidence for or against a suspect, in points against its best rival. */
export interface LedgerLine {
  /** The evidence group, `slip` and `prior` apart. */
  readonly group: string;
  readonly title: string;
  /** Ids of the findings or `test NAME` that the group rests on; empty for the prior. */
  readonly from: readonly string[];
  /** What was observed, in a word or two. */
  readonly observed: string;
  /** P(observed | suspect) and P(observed | rival), slips included. */
  readonly likelihood: number;
  readonly rival: number;
  /** 10·log10 of their ratio; those of a ledger add up to the ratio of the two posteriors, each alone at fault. */
  readonly points: number;
}

/** A component that could explain the findings, with its probability. */
export interface SuspectShare {
  /** `sensor.LR`, `control-module`, `something-else`. */
  readonly id: string;
  readonly title: string;
  /** The component that would be worked on (`sensor.LR`); null for something else. */
  readonly component: string | null;
  /** Whether a part would be ordered; a wire, a setting or a lean is put right without one. */
  readonly isPart: boolean;
  /** That it is at fault, alone or beside another: where pairs count, those of all suspects add up to more than 1. */
  readonly probability: number;
}

/** A suspect with the evidence for and against it. */
export interface RankedSuspect extends SuspectShare {
  /** The likeliest of the ways in which it fails, and how probable it is once this suspect is at fault; null for one way only. */
  readonly mode: { readonly id: string; readonly title: string; readonly probability: number } | null;
  /** Ids of findings and `test NAME` that make it more likely than all others together, and less; the most telling first. */
  readonly for: readonly string[];
  readonly against: readonly string[];
  /** The suspect that it is held against in the ledger. */
  readonly rival: string;
  readonly ledger: readonly LedgerLine[];
  /** What its part loses where it is the wrong one (W), in the job's currency; null where nothing is priced. */
  readonly wrongPart: number | null;
  /** Suspects that acting on this one puts right, too, itself among them. */
  readonly mends: readonly string[];
}

/** What one outcome of a test would change. */
export interface OutcomeEffect {
  readonly id: string;
  readonly title: string;
  readonly chance: number;
  /** The suspect that would then lead, and how probable it would be. */
  readonly leader: string;
  readonly probability: number;
  /** P(this outcome | suspect), slips included, by the suspect's id. */
  readonly under: ReadonlyMap<string, number>;
  /** The same under all that may be wrong, in the order of `Ranking.hypotheses`. */
  readonly likelihoods: readonly number[];
}

/** A test that could be done next. */
export interface RankedTest {
  /** `arm-by-hand.LR` */
  readonly id: string;
  readonly title: string;
  /** With its preparation. */
  readonly minutes: number;
  /** Minutes of the work that it brings after it, priced with it. */
  readonly brings: number;
  /** Minutes of waiting beside the work. */
  readonly elapsed: number;
  /** Expected information. */
  readonly bits: number;
  /** True where it must be on record before the leading suspect is repaired, whatever it saves. */
  readonly confirms: boolean;
  /** Expected saving after its cost, in the job's currency; null without a labour rate. */
  readonly saves: number | null;
  /** The same where no other test may follow. */
  readonly savesAlone: number | null;
  /** What it costs (t), with its preparation; null where nothing is priced. */
  readonly price: number | null;
  /**
   * How probable it is that it must be done in any case, since the repair has to be confirmed by it. Only the rest of its
   * price counts against what it saves.
   */
  readonly neededAnyway: number;
  readonly cautions: readonly string[];
  readonly points: readonly string[];
  readonly outcomes: readonly OutcomeEffect[];
}

/** The five conditions before an expensive part is advised. */
export const adviceConditions = [
  'least-risk',
  'no-test-pays',
  'over-threshold',
  'confirmed',
  'robust',
] as const;

export interface AdviceCondition {
  readonly id: (typeof adviceConditions)[number];
  readonly met: boolean;
  /** Names for the words that the report puts to it: confirmations that lack, tests that pay, evidence that turns it. */
  readonly lacks: readonly string[];
  readonly threshold: number | null;
}

/** Whether the leading suspect's part may be ordered, with each condition. */
export interface Advice {
  readonly suspect: string;
  readonly met: boolean;
  readonly conditions: readonly AdviceCondition[];
  /** What a wrong part loses (W), what passing the job on costs (E), and an hour of work, in the job's currency. */
  readonly wrongPart: number;
  readonly escalate: number;
  readonly rate: number;
  /** True where neither job nor shop says what an hour costs, and the pack's usual rate stands in. */
  readonly rateAssumed: boolean;
  /** Worth fixing rather than escalating from this probability on: W / (W + E). */
  readonly worthFixing: number;
}

/** One thing that may be wrong: a suspect alone, two at once, or something else. */
export interface WorldShare {
  /** `sensor.LR`, `sensor.LR + battery`, `something-else` */
  readonly id: string;
  /** The way in which each of its parts fails (`drifts`, `one-input.LR`); null where it has one way only. */
  readonly modes: readonly (string | null)[];
  /** Before any evidence; relative to the others. */
  readonly prior: number;
  readonly probability: number;
}

/** One piece of evidence, and how likely it is under each thing that may be wrong. */
export interface EvidenceShare extends Pick<LedgerLine, 'group' | 'title' | 'from' | 'observed'> {
  /** Slips included, in the order of `Ranking.hypotheses`. */
  readonly likelihoods: readonly number[];
}

/** All that the suspects of a job's packs come to. */
export interface Ranking {
  readonly suspects: readonly RankedSuspect[];
  /** All that may be wrong, single faults first; they sum to 1. */
  readonly hypotheses: readonly WorldShare[];
  /** All evidence: a prior times its likelihoods, over the sum of these products, is the probability of a hypothesis. */
  readonly evidence: readonly EvidenceShare[];
  /** The two suspects that are at fault together, where that is three times as probable as any single one; else null. */
  readonly pair: readonly string[] | null;
  readonly nextTests: readonly RankedTest[];
  readonly advice: Advice | null;
  /** Findings that no one suspect explains together; empty where one does. */
  readonly conflict: readonly string[];
  /** What being wrong costs; null where nothing is priced. */
  readonly stakes: Stakes | null;
}
