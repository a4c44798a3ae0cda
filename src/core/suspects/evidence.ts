import type { Finding } from '../finding.ts';
import type { Job } from '../job.ts';
import { groupRow } from './group-row.ts';
import type { EvidenceGroup } from './model.ts';
import { likeliestValue, type Observation, observe, speakingOf } from './observe.ts';
import { tells } from './outcome-table.ts';
import type { LikelihoodRow } from './posterior.ts';
import { anyTested, type Probing, recordedOutcome } from './recorded-tests.ts';
import { neutralOf } from './spaces.ts';
import type { GroupModel, SuspectModel, TestModel } from './suspect-model.ts';

/** One independent piece of evidence: a group of findings, or what a test found. */
export interface EvidenceRow {
  /** The group, or `test NAME`. */
  readonly id: string;
  readonly title: string;
  /** Ids of findings, or `test NAME`. */
  readonly from: readonly string[];
  readonly observed: string;
  /** True where it shows what a good vehicle shows; of a test nothing is said. */
  readonly quiet: boolean;
  /** Likelihoods in the order of the hypotheses. */
  readonly row: LikelihoodRow;
}

/** All that is on record of a job: groups that were observed, tests that were done, and what both come to. */
export interface Evidence {
  readonly rows: readonly EvidenceRow[];
  readonly observed: ReadonlyMap<string, { readonly group: EvidenceGroup; readonly seen: Observation }>;
  /** Every test that the vehicle allows. */
  readonly probings: readonly TestModel[];
  /** The place of the outcome that is on record, by the test's id. */
  readonly recorded: ReadonlyMap<string, number>;
  /** True where a group rests on a finding that is out. */
  readonly anythingOut: boolean;
}

/** A code says that something was out when it was set; it answers no test. */
const isByCode = ({ from }: Observation): boolean => from.every(({ kind }) => kind === 'stored-codes');

/** Whether the readings have answered what a test asks: its group was read, at its corner where it has one. */
export const answeredByReadings = ({ test, corner }: Probing, observed: Evidence['observed']): boolean => {
  const seen = test.group === null ? undefined : observed.get(test.group)?.seen;
  if (seen === undefined || isByCode(seen)) return false;
  return corner === null || seen.taken === null || seen.taken.includes(corner);
};

interface Observed extends GroupModel {
  readonly seen: Observation;
}

const groupEvidence = (one: Observed, job: Job): EvidenceRow => {
  const { group, seen } = one;
  const observed = likeliestValue(seen);
  return {
    id: group.id,
    title: group.title,
    from: [...new Set(seen.from.map(({ id }) => id))].sort(),
    observed,
    quiet: observed === neutralOf(group.space),
    row: groupRow(one, seen, job),
  };
};

const testEvidence = ({ id, test, outcomes }: TestModel, place: number): EvidenceRow => ({
  id: `test ${id}`,
  title: test.title,
  from: [`test ${id}`],
  observed: test.outcomes[place]?.id ?? '',
  quiet: false,
  row: outcomes[place] ?? [],
});

/**
 * Gathers the evidence of a job, one row for each group and each test that is on record. A test that asks what a
 * group of readings has answered is the same evidence, and only the readings count; before a code of the group the test
 * counts.
 */
export const gatherEvidence = (
  job: Job,
  { groups, tests: probings }: SuspectModel,
  findings: readonly Finding[],
): Evidence => {
  const speaking = speakingOf(findings);
  const observed = new Map<string, Observed>();
  for (const { group, chances } of groups) {
    const seen = observe(group, speaking);
    if (seen) observed.set(group.id, { group, chances, seen });
  }
  const recorded = new Map<string, number>();
  for (const probing of anyTested(job) ? probings : []) {
    const place = recordedOutcome(probing, job);
    if (place !== null) recorded.set(probing.id, place);
  }
  const done = probings.filter(
    (probing) => recorded.has(probing.id) && tells(probing) && !answeredByReadings(probing, observed),
  );
  const counted = [...observed.values()].filter(
    ({ group, seen }) => !(isByCode(seen) && done.some(({ test }) => test.group === group.id)),
  );
  return {
    rows: [
      ...counted.map((one) => groupEvidence(one, job)),
      ...done.map((probing) => testEvidence(probing, recorded.get(probing.id) ?? -1)),
    ],
    observed,
    probings,
    recorded,
    // A list of codes that none of a group's is on rests on findings that are out, and shows nothing of the group.
    anythingOut: [...observed.values()].some(
      ({ group, seen }) =>
        (seen.weights.get(neutralOf(group.space)) ?? 0) < 1 &&
        seen.from.some(({ verdict }) => verdict === 'out'),
    ),
  };
};
