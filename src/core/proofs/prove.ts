import { assessBriefly } from '../assess.ts';
import type { Finding } from '../finding.ts';
import type { Instant, Job } from '../job.ts';
import type { Pack } from '../pack.ts';
import type { PreparedPacks } from '../prepare/prepared-packs.ts';
import type { BriefWorksheet } from '../worksheet.ts';
import { fits, foundText } from './expectation.ts';

/** One thing that a proof expects: a check's verdict on a subject, a step's state, or a hold point. */
export interface Expectation {
  readonly about: 'check' | 'step' | 'hold-point';
  /** `pack/check`, a step's name, or a hold point's id. */
  readonly name: string;
  /** Empty where it is no check. */
  readonly subject: string;
  readonly value: string;
}

/** A small job and what a pack must say of it. */
export interface Proof {
  readonly says: string | null;
  readonly line: number;
  readonly job: Job;
  /** The pack under proof first, then those that it is proved with. */
  readonly prepared: PreparedPacks;
  readonly asOf: Instant;
  readonly expect: readonly Expectation[];
}

export interface ProofResult {
  readonly proof: Proof;
  readonly failures: readonly { readonly expectation: Expectation; readonly found: string }[];
}

/** The finding that an expectation is about: one that is superseded is not looked at. */
export const findingFor = (
  { name, subject }: Expectation,
  findings: readonly Finding[],
): Finding | undefined =>
  findings.findLast((one) => one.check === name && one.subject === subject && one.newest);

const stateOf = ({ about, name }: Expectation, { steps, holdPoints }: BriefWorksheet): string => {
  if (about === 'step')
    return steps.find(({ id }) => id === name || id.endsWith(`/${name}`))?.state ?? 'absent';
  const point = holdPoints.find(({ id }) => id === name);
  return point === undefined ? 'absent' : point.clear ? 'clear' : 'not-clear';
};

/** Runs one proof: judges its job and compares. */
export const runProof = (proof: Proof): ProofResult => {
  const sheet = assessBriefly(proof.job, proof.prepared, proof.asOf);
  const failures = proof.expect.flatMap((expectation) => {
    const { about, value } = expectation;
    if (about === 'check') {
      const finding = findingFor(expectation, sheet.findings);
      return fits(finding, value) ? [] : [{ expectation, found: foundText(finding, value) }];
    }
    const found = stateOf(expectation, sheet);
    return found === value ? [] : [{ expectation, found }];
  });
  return { proof, failures };
};

export interface Coverage {
  readonly check: string;
  /** Some proof makes it fire. */
  readonly fires: boolean;
  /** Some proof shows it silent: within, too close to call, or with nothing to say. */
  readonly silent: boolean;
}

/** For each check of a pack, whether its proofs show it both firing and silent. */
export const coverage = (pack: Pack, proofs: readonly Proof[]): Coverage[] => {
  const expected = proofs.flatMap(({ expect }) => expect).filter(({ about }) => about === 'check');
  return pack.checks.map(({ id }) => {
    const values = expected.filter(({ name }) => name === id).map(({ value }) => value.split(' ')[0]);
    return {
      check: id,
      fires: values.includes('out'),
      silent: values.includes('within') || values.includes('too-close') || values.includes('absent'),
    };
  });
};
