import type { Finding } from '../finding.ts';
import type { CodeMeaning, Job } from '../job.ts';
import { keyOf } from '../key.ts';
import type { Step } from '../pack.ts';
import type { Condition } from '../steps/condition.ts';
import { meansOf } from '../steps/facts.ts';
import { isRepair } from '../steps/staleness.ts';
import type { Diagnosis } from '../suspects/diagnosis.ts';
import { forAndAgainst } from '../suspects/ledger.ts';
import type { Decisions } from './decisions.ts';
import { isWrong } from './older.ts';
import { isRepairedSince, type PointingTest, pointingTests } from './pointing-tests.ts';
import type { Retest } from './retests.ts';

/** What is wrong with the vehicle as far as is known, and neither put right nor decided. */
export interface Troubles {
  /** Findings that are out at hold or look, or came and went, and that no outstanding step answers. */
  readonly findings: readonly Finding[];
  /** Tests that found something, with nothing repaired since. */
  readonly tests: readonly PointingTest[];
  /** Somebody of the shop has seen what the driver says, and nothing was repaired since. */
  readonly complaint: boolean;
}

/** Kinds of checks that say nothing of the vehicle. */
const ofTheShop: readonly string[] = ['equipment', 'kept-hold-points'];

/** Wrong with the vehicle, and newer than any work that it depends on; or intermittent. */
const isWrongNow = (finding: Finding): boolean =>
  isWrong(finding) && (finding.current || finding.intermittent) && !ofTheShop.includes(finding.kind);

/** Every fact of a condition that holds for `is`. */
const asks = (condition: Condition | null, is: (fact: Condition) => boolean): boolean => {
  if (condition === null) return false;
  if ('all' in condition) return condition.all.some((part) => asks(part, is));
  if ('any' in condition) return condition.any.some((part) => asks(part, is));
  return 'not' in condition ? false : is(condition);
};

const isClear = (fact: Condition): boolean =>
  'fact' in fact &&
  fact.fact === 'log' &&
  fact.pattern.did.includes('cleared') &&
  (fact.pattern.what?.includes('codes') ?? true);

const bringsBy =
  (means: CodeMeaning | null) =>
  (fact: Condition): boolean =>
    means !== null && 'fact' in fact && fact.fact === 'code-means' && fact.means.includes(means);

const answerOf = ({ remarks }: Finding): string | null =>
  remarks.find((remark) => remark.kind === 'answered-by-step')?.step ?? null;

/** Whether a code waits for an outstanding step: for what it asks for, or for being cleared and read again. */
const isExpectedCode = (finding: Finding, job: Job, open: readonly Step[]): boolean => {
  if (open.some((step) => asks(step.answeredIf, isClear) || asks(step.when, bringsBy(meansOf(finding)))))
    return true;
  const answer = answerOf(finding);
  if (answer !== null && open.some(({ name }) => name === answer)) return true;
  const read = job.snapshots.find(({ id }) => id === finding.snapshot)?.stamp.at ?? 0;
  return job.log.some(({ did, what, stamp }) => did === 'cleared' && what === 'codes' && stamp.at >= read);
};

/** Findings that wait for no outstanding step; a lamp goes out with its codes. */
const unexpected = (wrong: readonly Finding[], job: Job, open: readonly Step[]): readonly Finding[] => {
  const isCode = ({ kind }: Finding): boolean => kind === 'stored-codes';
  const expected = wrong.filter((one) => isCode(one) && isExpectedCode(one, job, open));
  if (expected.length === 0) return wrong;
  const left = wrong.filter((one) => !expected.includes(one));
  const codes = left.filter(isCode);
  return codes.length > 0 ? left : left.filter(({ kind }) => kind !== 'lamp');
};

/** Ids of the findings that speak for a suspect whose repair was declined, and the places of those suspects. */
const declinedOf = (
  { declined }: Decisions,
  diagnosis: Diagnosis | null,
): { readonly findings: ReadonlySet<string>; readonly places: ReadonlySet<number> } => {
  const findings = new Set<string>();
  const places = new Set<number>();
  if (diagnosis === null || declined.size === 0) return { findings, places };
  const { model, rows } = diagnosis.weighed;
  for (const [place, { suspect, place: where }] of model.hypotheses.entries()) {
    if (suspect === null || !declined.has(keyOf(suspect.component, where))) continue;
    places.add(place);
    for (const id of forAndAgainst(place, model.hypotheses, rows).for) findings.add(id);
  }
  return { findings, places };
};

/**
 * What is still wrong: what is out and neither accepted, nor blamed on something that the customer declined, nor waiting
 * for an outstanding step. What is older than the work that should have put it right is not among it, since it has to be
 * read again first.
 *
 * @param open steps that are outstanding
 */
export const troublesOf = (
  job: Job,
  findings: readonly Finding[],
  diagnosis: Diagnosis | null,
  decisions: Decisions,
  open: readonly Step[],
  retests: readonly Retest[],
): Troubles => {
  const older = new Set(retests.flatMap((retest) => retest.older.map(({ id }) => id)));
  const declined = declinedOf(decisions, diagnosis);
  const wrong = unexpected(findings.filter(isWrongNow), job, open);
  const tests = diagnosis ? pointingTests(diagnosis.weighed) : [];
  const isInstrument = (place: number): boolean =>
    diagnosis?.weighed.model.hypotheses[place]?.suspect?.repaired === false;
  return {
    findings: wrong.filter(({ id }) => !declined.findings.has(id) && !older.has(id)),
    tests: tests.filter(
      ({ test, towards }) =>
        diagnosis !== null &&
        !isRepairedSince(test, diagnosis.weighed) &&
        towards.some((place) => !isInstrument(place)) &&
        !towards.some((place) => declined.places.has(place)),
    ),
    complaint: job.symptoms.some(({ checked }) => checked === 'yes') && !job.log.some(isRepair),
  };
};
