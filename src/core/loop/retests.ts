import { likeConditions } from '../checks/over-time/like-conditions.ts';
import { axleOf, isAxle, isCorner } from '../corner.ts';
import type { Finding } from '../finding.ts';
import { type Job, type LogEntry, type Snapshot, type State, states } from '../job.ts';
import { keyOf, parseKey } from '../key.ts';
import type { Channel, Component } from '../pack.ts';
import { disturbs, isLater, isRepair } from '../steps/staleness.ts';
import type { Diagnosis } from '../suspects/diagnosis.ts';
import { usualOutcome } from '../suspects/outcome-table.ts';
import type { SuspectModel, TestModel } from '../suspects/suspect-model.ts';
import { telling } from './compare.ts';
import { isReadAfter, isWrong, olderFor } from './older.ts';
import { pointsTowards } from './pointing-tests.ts';
import { titleOf } from './titles.ts';

/** A test that is done again after the work. */
export interface RetestTest {
  readonly id: string;
  readonly title: string;
  readonly minutes: number;
  readonly elapsed: number;
  /** What it found since the work; null where it was not done again. */
  readonly found: string | null;
  readonly passed: boolean;
}

/** Readings of one state that are taken again after the work. */
export interface RetestReadings {
  readonly state: State;
  readonly channels: readonly string[];
}

/** What shows that the work on a component has helped. */
export interface Retest {
  readonly component: string;
  readonly title: string;
  readonly since: LogEntry;
  readonly tests: readonly RetestTest[];
  /** Judged before the work and not read again since. */
  readonly readings: readonly RetestReadings[];
  /** Read again, but not in the conditions of before. */
  readonly unlike: readonly { readonly state: State; readonly conditions: readonly string[] }[];
  /** Out before the work, and not read again though the work left it fresh. */
  readonly older: readonly Finding[];
  /** Out, and read since the work. */
  readonly out: readonly Finding[];
  readonly done: boolean;
}

/** Work that a test may bring, and waiting that it may take, min, for it to be done again at every repair. Judgement. */
const mostBrings = 5;
const mostElapsed = 120;

/** The last repair of each component. */
const repairsOf = ({ log }: Job): ReadonlyMap<string, LogEntry> => {
  const last = new Map<string, LogEntry>();
  for (const entry of log)
    if (isRepair(entry) && !entry.failed && entry.what !== null) last.set(entry.what, entry);
  return last;
};

/** Whether a test on record before the work pointed to the component. */
const pointed = (
  probing: TestModel,
  found: string | null,
  component: string,
  model: SuspectModel,
): boolean => {
  const place = probing.test.outcomes.findIndex(({ id }) => id === found);
  if (place < 0 || place === usualOutcome(probing)) return false;
  return pointsTowards(probing.outcomes[place] ?? [], model).some((hypothesis) => {
    const one = model.hypotheses[hypothesis];
    return one?.suspect != null && keyOf(one.suspect.component, one.place) === component;
  });
};

const testsFor = (component: string, since: LogEntry, job: Job, model: SuspectModel): RetestTest[] =>
  model.tests.flatMap((probing): RetestTest[] => {
    const { id, test, inspects, place } = probing;
    if (inspects !== null || test.brings > mostBrings || test.elapsed > mostElapsed) return [];
    const entries = job.log.filter(
      ({ did, what, failed }) => what === id && !failed && (did === 'tested' || did === 'skipped'),
    );
    const before = entries.findLast((entry) => entry.did === 'tested' && isLater(since, entry));
    if (!before || !pointed(probing, before.found, component, model)) return [];
    const after = entries.findLast((entry) => isLater(entry, since));
    const usual = test.outcomes[usualOutcome(probing)]?.id;
    return [
      {
        id,
        title: place === null ? test.title : `${test.title}, ${place}`,
        minutes: test.minutes + (test.setUp?.minutes ?? 0),
        elapsed: test.elapsed,
        found: after?.found ?? null,
        passed: after?.did === 'skipped' || (after !== undefined && after.found === usual),
      },
    ];
  });

const isDisturbed = (
  component: string,
  keys: readonly string[],
  channels: ReadonlyMap<string, Channel>,
): boolean =>
  keys.some((key) => {
    const channel = channels.get(parseKey(key).base);
    return channel !== undefined && disturbs(component, key, channel);
  });

/** Whether a finding is about the place of a component; what is about the whole vehicle or body is about no corner. */
const isAbout = (component: string, subject: string): boolean => {
  const { corner, axle } = parseKey(component);
  const place = corner ?? axle;
  if (place === null) return true;
  const own = parseKey(subject);
  const where = isCorner(subject) || isAxle(subject) ? subject : (own.corner ?? own.axle);
  if (where === null) return false;
  if (where === place) return true;
  return isCorner(place)
    ? isAxle(where) && axleOf(place) === where
    : isCorner(where) && axleOf(where) === place;
};

const readingsFor = (
  component: string,
  findings: readonly Finding[],
  older: readonly Finding[],
  channels: ReadonlyMap<string, Channel>,
): RetestReadings[] => {
  const byState = new Map<State, Set<string>>();
  for (const finding of findings) {
    const { stale, newest, moment, waived, state, channels: keys, intermittent } = finding;
    if (!newest || moment || waived !== null || state === null || intermittent) continue;
    const isOld = stale && isDisturbed(component, keys, channels);
    if (!isOld && !older.includes(finding)) continue;
    const own = byState.get(state) ?? new Set<string>();
    for (const key of keys) own.add(key);
    // What a condition alone shows, such as the levelling mode, has no channels.
    if (own.size > 0 || older.includes(finding)) byState.set(state, own);
  }
  return states.flatMap((state) => {
    const own = byState.get(state);
    return own ? [{ state, channels: [...own].sort() }] : [];
  });
};

/** The newest snapshot on one side of the work that reads something which the component disturbs. */
const snapshotAt = (
  component: string,
  state: State,
  job: Job,
  channels: ReadonlyMap<string, Channel>,
  isOn: (snapshot: Snapshot) => boolean,
): Snapshot | undefined =>
  job.snapshots.findLast(
    (one) => one.state === state && isOn(one) && isDisturbed(component, [...one.readings.keys()], channels),
  );

/** States that were read again in other conditions than before the first repair. */
const unlikeFor = (
  component: string,
  since: LogEntry,
  job: Job,
  channels: ReadonlyMap<string, Channel>,
): Retest['unlike'] => {
  const first = job.log.find(isRepair)?.stamp.at ?? since.stamp.at;
  return states.flatMap((state) => {
    const before = snapshotAt(component, state, job, channels, ({ stamp }) => stamp.at <= first);
    const after = snapshotAt(component, state, job, channels, ({ stamp }) => stamp.at > since.stamp.at);
    if (!before || !after) return [];
    const others = telling.filter((name) => !likeConditions(before, after, [name]));
    return others.length > 0
      ? [{ state, conditions: others.map((name) => `${name} ${before.conditions.words[name]}`) }]
      : [];
  });
};

/**
 * What every repair of this visit still wants before it is proved: the tests that pointed to it, again; the readings of
 * before, again, in their states and conditions; and nothing of it out.
 */
export const retestsOf = (
  job: Job,
  findings: readonly Finding[],
  model: SuspectModel,
  channels: ReadonlyMap<string, Channel>,
  components: readonly Component[],
  diagnosis: Diagnosis | null,
): Retest[] =>
  [...repairsOf(job)].map(([component, since]) => {
    const tests = testsFor(component, since, job, model);
    const older = olderFor(component, since, job, findings, channels, diagnosis);
    const readings = readingsFor(component, findings, older, channels);
    const out = findings.filter(
      (one) =>
        isWrong(one) &&
        one.current &&
        !older.includes(one) &&
        isReadAfter(one, since, job) &&
        isAbout(component, one.subject) &&
        isDisturbed(component, one.channels, channels),
    );
    const unlike = readings.length > 0 ? [] : unlikeFor(component, since, job, channels);
    return {
      component,
      title: titleOf(component, components),
      since,
      tests,
      readings,
      unlike,
      older,
      out,
      done:
        tests.every(({ passed }) => passed) &&
        readings.length === 0 &&
        unlike.length === 0 &&
        out.length === 0,
    };
  });
