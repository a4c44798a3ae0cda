import type { Finding } from '../../finding.ts';
import type { Job, LogEntry, Symptom } from '../../job.ts';
import { parseKey } from '../../key.ts';
import { isWork, mends } from '../../steps/staleness.ts';
import type { EvidenceGroup } from '../model.ts';
import { tells, usualOutcome } from '../outcome-table.ts';
import type { LikelihoodRow } from '../posterior.ts';
import { anyTested, type Probing, recordedOutcome } from '../recorded-tests.ts';
import type { GroupModel, SuspectModel, TestModel } from '../suspect-model.ts';
import { chancesInWorlds, tableInWorlds, type World } from '../worlds.ts';
import { groupRow } from './group-row.ts';
import {
  isLevelled,
  likeliestValue,
  type Observation,
  observe,
  speakingOf,
  wasLevelling,
} from './observe.ts';
import { neutralOf } from './spaces.ts';

/** One independent piece of evidence: a group of findings, or what a test found. */
export interface Piece {
  /** The group, or `test NAME`. */
  readonly id: string;
  readonly title: string;
  /** Ids of findings, or `test NAME`. */
  readonly from: readonly string[];
  readonly observed: string;
  /** True where it shows what a good vehicle shows, or is what the driver says. */
  readonly quiet: boolean;
  /** Likelihoods in the order of the variants. */
  readonly row: LikelihoodRow;
  /** Likelihoods in the order of some worlds. */
  readonly inWorlds: (worlds: readonly World[]) => LikelihoodRow;
}

/** All that is on record of a job: groups that were observed, tests that were done, and what both come to. */
export interface Evidence {
  readonly pieces: readonly Piece[];
  readonly observed: ReadonlyMap<string, { readonly group: EvidenceGroup; readonly seen: Observation }>;
  /** Every test and inspection that the vehicle allows. */
  readonly probings: readonly TestModel[];
  /** The place of the outcome that is on record, by the test's id. */
  readonly recorded: ReadonlyMap<string, number>;
  /** True where a finding is out, a test found something, or somebody of the shop has seen what the driver says. */
  readonly anythingOut: boolean;
}

/** A code says that something was out when it was set; it answers no test. */
const isByCode = ({ from }: Observation): boolean =>
  from.length > 0 && from.every(({ kind }) => kind === 'stored-codes');

/** Whether the readings have answered what a test asks: its group was read, at its corner where it has one. */
export const answeredByReadings = ({ test, place }: Probing, observed: Evidence['observed']): boolean =>
  test.group !== null &&
  [...observed.values()].some(
    ({ group, seen }) =>
      group.base === test.group &&
      !isByCode(seen) &&
      (place === null || group.place === null || group.place === place) &&
      (place === null || seen.taken === null || seen.taken.some((corner) => corner === place)),
  );

interface Observed extends GroupModel {
  readonly seen: Observation;
}

const groupEvidence = (one: Observed, job: Job): Piece => {
  const { group, seen } = one;
  const observed = likeliestValue(seen);
  const levelled = isLevelled(group, seen, job);
  const chances = wasLevelling(seen, job) ? one.levelling : one.chances;
  return {
    id: group.id,
    title: group.title,
    from: [...new Set(seen.from.map(({ id }) => id))].sort(),
    observed,
    quiet: observed === neutralOf(group) || seen.from.length === 0,
    row: groupRow(group, seen.weights, levelled, chances),
    inWorlds: (worlds) =>
      groupRow(group, seen.weights, levelled, chancesInWorlds(chances, group.values, worlds)),
  };
};

const testEvidence = (probing: TestModel, place: number): Piece => {
  const { id, test, outcomes, inspects } = probing;
  const name = inspects === null ? `test ${id}` : id;
  const usual = inspects === null ? usualOutcome(probing) : 1;
  return {
    id: name,
    title: test.title,
    from: [name],
    observed: test.outcomes[place]?.id ?? '',
    quiet: place === usual,
    row: outcomes[place] ?? [],
    inWorlds: (worlds) => tableInWorlds(outcomes, usual, worlds)[place] ?? [],
  };
};

/** What the driver says of the vehicle as it came: once something was put right, it is no evidence of what is wrong now. */
const symptomsOf = ({ symptoms, log }: Job): readonly Symptom[] =>
  log.some((entry) => isWork(entry) && mends(entry) && entry.did !== 'disconnected' && !entry.failed)
    ? []
    : symptoms;

/**
 * Whether what the driver says is enough to look for a fault: somebody has seen it, nobody has looked yet, or a reading is
 * too close to call it nothing.
 */
const complains = (symptoms: readonly Symptom[], observed: Evidence['observed']): boolean => {
  const doubted = symptoms.length > 0 && symptoms.every(({ checked }) => checked === 'no');
  if (!doubted) return symptoms.length > 0;
  return [...observed.values()].some(({ seen }) => seen.from.some(({ verdict }) => verdict === 'too-close'));
};

/** Whether anything says that the vehicle is not as it should be. */
const somethingWrong = (
  symptoms: readonly Symptom[],
  pieces: readonly Piece[],
  observed: Evidence['observed'],
): boolean =>
  // A list of codes that none of a group's is on rests on findings that are out, and shows nothing of the group.
  [...observed.values()].some(
    ({ group, seen }) =>
      (seen.weights.get(neutralOf(group)) ?? 0) < 1 && seen.from.some(({ verdict }) => verdict === 'out'),
  ) ||
  pieces.some(({ id, quiet }) => !quiet && (id.startsWith('test ') || id.startsWith('inspected '))) ||
  complains(symptoms, observed);

/** Whether a group that it follows from has shown something: then it is that one's doing. */
const isFollowing = ({ follows }: EvidenceGroup, observed: ReadonlyMap<string, Observed>): boolean =>
  [...observed.values()].some(
    ({ group, seen }) => follows.includes(group.base) && likeliestValue(seen) !== neutralOf(group),
  );

/**
 * Whether a test that found an instrument wrong has done its work: it depends on nothing of the vehicle, and what was
 * read since was read with another one.
 */
const isReadAgain = (probing: TestModel, place: number, entry: LogEntry, { snapshots }: Job): boolean =>
  probing.test.depends?.length === 0 &&
  place !== usualOutcome(probing) &&
  snapshots.some(({ stamp }) => stamp.at > entry.stamp.at);

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
  const symptoms = symptomsOf(job);
  const speaking = speakingOf(findings, symptoms);
  const observed = new Map<string, Observed>();
  for (const one of groups) {
    const seen = observe(one.group, speaking);
    if (seen) observed.set(one.group.id, { ...one, seen });
  }
  const recorded = new Map<string, number>();
  for (const probing of anyTested(job) ? probings : []) {
    const found = recordedOutcome(probing, job);
    if (found !== null && !isReadAgain(probing, found.place, found.entry, job))
      recorded.set(probing.id, found.place);
  }
  const done = probings.filter(
    (probing) => recorded.has(probing.id) && tells(probing) && !answeredByReadings(probing, observed),
  );
  const counted = [...observed.values()].filter(
    ({ group, seen }) =>
      !isFollowing(group, observed) &&
      !(
        isByCode(seen) &&
        done.some(({ test, id }) => test.group === group.base && parseKey(id).corner === null)
      ),
  );
  const pieces = [
    ...counted.map((one) => groupEvidence(one, job)),
    ...done.map((probing) => testEvidence(probing, recorded.get(probing.id) ?? -1)),
  ];
  return { pieces, observed, probings, recorded, anythingOut: somethingWrong(symptoms, pieces, observed) };
};
