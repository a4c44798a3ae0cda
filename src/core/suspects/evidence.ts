import type { Finding } from '../finding.ts';
import type { Job } from '../job.ts';
import { lazy } from '../lazy.ts';
import type { Pack } from '../pack.ts';
import { castOf } from './cast.ts';
import { groupRow } from './group-row.ts';
import type { Hypothesis } from './hypotheses.ts';
import type { EvidenceGroup } from './model.ts';
import { likeliestValue, type Observation, observe, speakingOf } from './observe.ts';
import { outcomeTable, tells } from './outcome-table.ts';
import type { LikelihoodRow } from './posterior.ts';
import { anyTested, type Probing, recordedOutcome } from './recorded-tests.ts';
import { neutralOf } from './spaces.ts';

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
  readonly probings: readonly Probing[];
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

const groupEvidence = (
  { group, seen }: { group: EvidenceGroup; seen: Observation },
  hypotheses: readonly Hypothesis[],
  job: Job,
): EvidenceRow => {
  const observed = likeliestValue(seen);
  const from = lazy(() => [...new Set(seen.from.map(({ id }) => id))].sort());
  return {
    id: group.id,
    title: group.title,
    get from() {
      return from();
    },
    observed,
    quiet: observed === neutralOf(group.space),
    row: groupRow(group, seen, hypotheses, job),
  };
};

const testEvidence = (probing: Probing, place: number, hypotheses: readonly Hypothesis[]): EvidenceRow => ({
  id: `test ${probing.id}`,
  title: probing.test.title,
  from: [`test ${probing.id}`],
  observed: probing.test.outcomes[place]?.id ?? '',
  quiet: false,
  row: outcomeTable(probing, hypotheses)[place] ?? [],
});

/**
 * Gathers the evidence of a job, one row for each group and each test that is on record. A test that asks what a
 * group of readings has answered is the same evidence, and only the readings count; before a code of the group the test
 * counts.
 */
export const gatherEvidence = (
  job: Job,
  packs: readonly Pack[],
  findings: readonly Finding[],
  hypotheses: readonly Hypothesis[],
): Evidence => {
  const { groups, probings } = castOf(packs, job.vehicle);
  const speaking = speakingOf(findings);
  const observed = new Map<string, { group: EvidenceGroup; seen: Observation }>();
  for (const group of groups) {
    const seen = observe(group, speaking);
    if (seen) observed.set(group.id, { group, seen });
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
      ...counted.map((one) => groupEvidence(one, hypotheses, job)),
      ...done.map((probing) => testEvidence(probing, recorded.get(probing.id) ?? -1, hypotheses)),
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
