import {
  type ConditionName,
  conditionWords,
  type Instant,
  type Reading,
  type Snapshot,
  type State,
} from '../../job.ts';
import type { Retest, RetestReadings } from '../../loop/retests.ts';
import { easiest } from '../../steps/readings-wanted.ts';
import { isWork } from '../../steps/staleness.ts';
import { openWaits } from '../../steps/waiting.ts';
import { wantedConditions } from '../../wanted/circumstances.ts';
import type { Reason } from '../../worksheet-parts.ts';
import { logged, type StatedCondition, say } from '../command.ts';
import type { Now } from '../now.ts';
import { mayBe, type NowGround } from '../now-ground.ts';
import { toRead, toState } from '../reading.ts';
import { testCommand } from './test.ts';

const workOf = ({ since, title }: Retest): Reason => ({
  kind: 'worked',
  title,
  did: since.did,
  at: since.stamp.at,
});

/** The first test of a retest that was not done again, and that may be done now. */
const testAgain = (retest: Retest, id: string, ground: NowGround): Now | null => {
  const waited = openWaits(ground.job).map(({ what }) => what);
  const open = retest.tests.find((one) => one.found === null && !one.passed && !waited.includes(one.id));
  const probing = ground.model.tests.find((one) => one.id === open?.id);
  if (!open || !probing || probing.test.acts.some((act) => ground.forbidden.has(act))) return null;
  return {
    kind: 'retest',
    id,
    title: { kind: 'again', text: open.title },
    because: [workOf(retest)],
    minutes: open.minutes,
    elapsed: open.elapsed,
    cautions: probing.cautions,
    command: testCommand(open.id, probing.test.outcomes),
    instead: [logged('skipped', open.id, say('reason'))],
    for: 'technician',
  };
};

/** What the newest snapshot that read most of some channels in a state stated before an instant, to be stated again. */
const conditionsBefore = (
  state: State,
  channels: readonly string[],
  before: Instant,
  { job }: NowGround,
): readonly StatedCondition[] => {
  const earlier = job.snapshots.filter((one) => one.state === state && one.stamp.at <= before);
  const read = ({ readings }: Snapshot): number => channels.filter((key) => readings.has(key)).length;
  const most = Math.max(...earlier.map(read));
  const snapshot = earlier.findLast((one) => read(one) === most);
  if (!snapshot) return [];
  const { words, air, rested, asleep } = snapshot.conditions;
  const quantities = { air, rested, asleep };
  return [
    ...Object.entries(words).map(([name, word]) => ({ name, wants: repeated(name, word) })),
    ...Object.entries(quantities).flatMap(([name, value]) => (value === null ? [] : [{ name, wants: [] }])),
  ];
};

/** What stood in the way before is not brought about again; the work may have ended it. */
const repeated = (name: string, word: string | undefined): readonly string[] =>
  word === undefined || name === 'levelling' || name === 'mode' || name === 'on-stops' ? [] : [word];

/** A rate wants as many readings as it rested on before; beyond these nothing is gained from another session. */
const fewestSessions = 2;
const mostSessions = 5;

/** What checks of some readings look at besides, where it was read in this state before: volts beside a current. */
const besides = (keys: readonly string[], state: State, { job, findings, prepared }: NowGround): string[] => {
  const again = new Set(
    findings
      .filter(
        (one) =>
          one.stale && one.newest && one.state === state && one.channels.every((key) => keys.includes(key)),
      )
      .map(({ check }) => check),
  );
  const own = prepared.checks
    .filter(({ id }) => again.has(id))
    .flatMap(({ parameters }) => Object.values(parameters))
    .filter((value): value is string => typeof value === 'string' && prepared.channelById.has(value));
  const read = job.snapshots.filter((one) => one.state === state);
  return own.filter((key) => read.some(({ readings }) => readings.has(key)));
};

/** Whether a signal was seen to jump before an instant, and not to stand since: then it is read several times. */
const jumped = (key: string, state: State, before: Instant, { findings, job }: NowGround): boolean =>
  findings.some(
    (one) =>
      one.kind === 'steadiness' &&
      one.state === state &&
      one.newest &&
      one.verdict !== 'within' &&
      one.channels.includes(key) &&
      job.snapshots.some(({ id, stamp }) => id === one.snapshot && stamp.at <= before),
  );

/** Whether a reading shows how still it stands, or why it could not be taken. */
const isSeveral = (reading: Reading | undefined): boolean =>
  reading?.kind === 'span' ||
  reading?.kind === 'untaken' ||
  (reading?.kind === 'values' && reading.values.length > 1);

/** Readings of one state again, in the conditions of before. */
const session = (
  id: string,
  { state, channels }: RetestReadings,
  before: Instant,
  because: readonly Reason[],
  ground: NowGround,
): Now | null => {
  const { job, findings, prepared } = ground;
  if (!mayBe(state, ground)) return null;
  const step = ground.steps.find((one) => one.id === `readings/${state}`);
  const disturbed = (step?.because ?? []).flatMap((reason) =>
    reason.kind === 'readings-stale' ? [...reason.channels] : [],
  );
  const keys = [
    ...new Set([...channels, ...disturbed, ...besides([...channels, ...disturbed], state, ground)]),
  ];
  const readings = keys.filter((key) => key !== 'lamp');
  const own = job.snapshots.filter((one) => one.state === state);
  const earlier = own.filter(
    ({ stamp, readings: has }) => stamp.at <= before && readings.some((key) => has.has(key)),
  ).length;
  const asking = new Set(findings.map(({ check }) => check));
  const stated = conditionsBefore(state, readings, before, ground);
  const wanted = toState(wantedConditions(readings, state, job, prepared, asking)).map((one) => {
    const same = stated.find(({ name }) => name === one.name);
    return same && same.wants.length > 0 ? same : one;
  });
  const conditions = [...wanted, ...stated.filter(({ name }) => !wanted.some((one) => one.name === name))];
  const lamp = keys.includes('lamp');
  const several = readings.filter((key) => jumped(key, state, before, ground));
  // Where nothing is read, a session is about the conditions that it states.
  const telling = keys.length > 0 ? [] : conditions.filter(({ name }) => name in conditionWords);
  const taken = own.filter(
    (one) =>
      one.stamp.at > before &&
      readings.every((key) => one.readings.has(key)) &&
      several.every((key) => isSeveral(one.readings.get(key))) &&
      (!lamp || one.lamp !== null) &&
      telling.every(({ name }) => one.conditions.words[name as ConditionName] !== undefined),
  ).length;
  const enough = Math.min(Math.max(earlier, fewestSessions), mostSessions);
  if (taken >= enough) return null;
  return toRead('retest', id, { state, readings, several, lamp, codes: false, conditions }, because, ground);
};

const easiestFirst = (a: RetestReadings, b: RetestReadings): number =>
  easiest.indexOf(a.state) - easiest.indexOf(b.state);

/** What one repair still wants. */
const ofRepair = (retest: Retest, ground: NowGround): Now | null => {
  const step = ground.steps.find((one) => one.id.endsWith(`/retest.${retest.component}`));
  if (step && step.state !== 'ready') return null;
  const id = `retest.${retest.component}`;
  const before = retest.since.stamp.at;
  const again = step ? testAgain(retest, id, ground) : null;
  if (again) return again;
  for (const readings of [...retest.readings].sort(easiestFirst)) {
    const read = session(id, readings, before, [workOf(retest)], ground);
    if (read) return read;
  }
  for (const { state, conditions } of step ? retest.unlike : []) {
    const last = ground.job.snapshots.findLast((one) => one.state === state && one.stamp.at <= before);
    const because: Reason[] = [{ kind: 'retest-unlike', state, conditions }, workOf(retest)];
    const read = session(
      id,
      { state, channels: [...(last?.readings.keys() ?? [])] },
      before,
      because,
      ground,
    );
    if (read) return read;
  }
  return null;
};

/** What other work than a repair disturbed. */
const ofWork = (ground: NowGround): Now | null => {
  const last = ground.job.log.findLast(isWork)?.stamp.at ?? 0;
  const ready = ground.steps.filter(({ base, state }) => base === 'readings' && state === 'ready');
  for (const state of easiest) {
    const step = ready.find(({ id }) => id === `readings/${state}`);
    const read = step ? session(step.id, { state, channels: [] }, last, step.because, ground) : null;
    if (read?.command?.kind === 'add' && read.command.names.length + Number(read.command.lamp) > 0)
      return read;
  }
  return null;
};

/** What shows that the work has helped: the test and the readings that showed the fault, again. */
export const retest = (ground: NowGround): Now | null => {
  for (const one of ground.retests) {
    const now = ofRepair(one, ground);
    if (now) return now;
  }
  return ofWork(ground);
};
