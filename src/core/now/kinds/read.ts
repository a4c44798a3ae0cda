import type { Finding, Missing } from '../../finding.ts';
import type { Instant, Snapshot, State } from '../../job.ts';
import { keyOf } from '../../key.ts';
import type { Ask } from '../../pack.ts';
import { answer } from '../../steps/answer.ts';
import { easiest } from '../../steps/readings-wanted.ts';
import { isWork } from '../../steps/staleness.ts';
import { bitsOfReading } from '../../suspects/bits-of-reading.ts';
import { type StillToTake, stillToTake } from '../../wanted/still-to-take.ts';
import type { Reason, WorksheetStep } from '../../worksheet-parts.ts';
import { logged, say } from '../command.ts';
import type { Now } from '../now.ts';
import { isInQuestion, mayBe, type NowGround } from '../now-ground.ts';
import { toRead, toState, wordsOf } from '../reading.ts';
import { nextTest } from './test.ts';

const lastWork = ({ job }: NowGround): Instant =>
  job.log.findLast(isWork)?.stamp.at ?? Number.NEGATIVE_INFINITY;

const isAgain = ({ because }: WorksheetStep): boolean =>
  because.some(({ kind }) => kind === 'readings-stale');

const skipping = (what: string) => [logged('skipped', what, say('reason'))];

/** Bits below which a reading decides too little to come before a test. Judgement. */
const decidesMuch = 0.1;

/** What a session would settle of what nobody has read yet. */
const settledBy = ({ state, readings }: StillToTake, { findings }: NowGround): readonly Finding[] =>
  findings.filter(
    ({ missing, readIn, waived }) =>
      readIn.includes(state) &&
      waived === null &&
      (missing?.why === 'no-reading' || missing?.why === 'no-snapshot') &&
      missing.channels.every((key) => readings.includes(key)),
  );

/** Whether a session comes before the next test: where none pays, or where it tells more in a minute than that does. */
const comesFirst = ({ minutes }: WorksheetStep, session: StillToTake, ground: NowGround): boolean => {
  const next = nextTest(ground);
  if (!next || !ground.diagnosis) return true;
  const bits = bitsOfReading(settledBy(session, ground), ground.diagnosis.weighed);
  return bits >= decidesMuch && bits * next.minutes >= next.bits * minutes;
};

/** Readings that could not be taken before, and may be now. */
const untaken = ({ because }: WorksheetStep): readonly string[] =>
  because.flatMap((reason) =>
    reason.kind === 'reading-open' && reason.missing.why === 'could-not-be-taken'
      ? [reason.missing.channel]
      : [],
  );

/** Readings that the packs want whatever is wrong, the easiest state first; what work disturbed comes later. */
const wanted = (
  ground: NowGround,
  isNow: (step: WorksheetStep, session: StillToTake) => boolean,
): Now | null => {
  const ready = ground.steps.filter(
    (step) => step.id.startsWith('readings/') && step.state === 'ready' && !isAgain(step),
  );
  const states = easiest.filter(
    (state) => ready.some(({ id }) => id === `readings/${state}`) && mayBe(state, ground),
  );
  if (states.length === 0) return null;
  const take = stillToTake(ground, ground.prepared);
  for (const state of states) {
    const step = ready.find(({ id }) => id === `readings/${state}`);
    const none: StillToTake = {
      state,
      readings: [],
      lamp: false,
      codes: false,
      conditions: [],
      waitsFor: [],
    };
    const session = take.find((one) => one.state === state) ?? none;
    if (!step || !isNow(step, session)) continue;
    const conditions = toState(session.conditions);
    const readings = [...new Set([...session.readings, ...untaken(step)])];
    return toRead(
      'read',
      step.id,
      { ...session, readings, conditions },
      step.because,
      ground,
      skipping(step.id),
    );
  }
  return null;
};

/** What checks want to know of the vehicle; what was read all the same is worth more once it is stated. */
const factsWanted = ({ findings, job }: NowGround): readonly string[] => {
  const read = new Set(job.snapshots.flatMap(({ readings }) => [...readings.keys()]));
  const wanting = findings.flatMap(
    ({ missing, wanted: isWanted, waived, channels, newest, verdict, remarks }) => {
      if (waived !== null) return [];
      if (missing?.why === 'vehicle-not-stated')
        return isWanted && channels.some((key) => read.has(key)) ? [missing.what] : [];
      const isOpen = newest && verdict === 'out' && remarks.some(({ kind }) => kind === 'sense-not-stated');
      return isOpen ? ['sensor-sense'] : [];
    },
  );
  return [...new Set(wanting)];
};

/** Facts of the vehicle: they stand in the head of the file. */
const toStateFacts = (facts: readonly string[]): Now => ({
  kind: 'read',
  id: 'readings/vehicle',
  title: { kind: 'state-vehicle', facts },
  because: [{ kind: 'not-judged-without', conditions: facts }],
  minutes: 1,
  elapsed: 0,
  cautions: [],
  command: { kind: 'edit', at: `vehicle: ${facts.map((fact) => `${fact}: …`).join(', ')}` },
  instead: skipping('readings/vehicle'),
  for: 'technician',
});

const facts = (ground: NowGround): Now | null => {
  const wanting = ground.decisions.skipped.has('readings/vehicle') ? [] : factsWanted(ground);
  return wanting.length > 0 ? toStateFacts(wanting) : null;
};

interface Lacking {
  readonly name: string;
  readonly wants: readonly string[];
}

/** The condition that a check lacks of a reading that was taken. */
const lackedBy = (missing: Missing): Lacking | null => {
  if (missing.why === 'condition-not-stated')
    return { name: missing.condition, wants: wordsOf(missing.condition) };
  if (missing.why === 'rest-not-stated') return { name: 'rested', wants: [] };
  return missing.why === 'sleep-not-stated' ? { name: 'asleep', wants: [] } : null;
};

/** Conditions that nobody stated of a snapshot, by the snapshot, the newest of each state. */
const lackedConditions = (ground: NowGround): Map<Snapshot, Map<string, Lacking>> => {
  const since = lastWork(ground);
  const bySnapshot = new Map<Snapshot, Map<string, Lacking>>();
  const add = (snapshot: Snapshot | undefined, lacking: Lacking): void => {
    if (!snapshot || isSkipped(snapshot.state, ground)) return;
    const own = bySnapshot.get(snapshot) ?? new Map<string, Lacking>();
    own.set(lacking.name, lacking);
    bySnapshot.set(snapshot, own);
  };
  for (const { missing, readIn, channels, wanted: isWanted, waived } of ground.findings) {
    const lacking = missing && isWanted && waived === null ? lackedBy(missing) : null;
    if (!lacking) continue;
    const snapshot = ground.job.snapshots.findLast(
      ({ state, readings, stamp }) =>
        readIn.includes(state) && stamp.at >= since && channels.some((key) => readings.has(key)),
    );
    add(snapshot, lacking);
  }
  return bySnapshot;
};

/** Whether somebody said that nothing more will be read in a state, after its newest snapshot. */
const isSkipped = (state: State, { job, decisions }: NowGround): boolean => {
  const entry = decisions.skipped.get(`readings/${state}`);
  const newest = job.snapshots.findLast((one) => one.state === state)?.stamp.at ?? Number.NEGATIVE_INFINITY;
  return entry !== undefined && entry.stamp.at >= newest;
};

const conditions = (ground: NowGround): Now | null => {
  const [first] = lackedConditions(ground);
  if (!first) return null;
  const [snapshot, lacking] = first;
  const names = [...lacking.values()];
  return {
    kind: 'read',
    id: `readings/${snapshot.state}`,
    title: { kind: 'state', conditions: names.map(({ name }) => name), snapshot: snapshot.id },
    because: [{ kind: 'not-judged-without', conditions: names.map(({ name }) => name) }],
    minutes: 1,
    elapsed: 0,
    cautions: [],
    command: { kind: 'fix', snapshot: snapshot.id, conditions: names },
    instead: skipping(`readings/${snapshot.state}`),
    for: 'technician',
  };
};

/** The keys of an ask on this vehicle. */
export const keysOfAsk = ({ channels }: Ask, { job, prepared }: NowGround): string[] =>
  channels.flatMap((base) =>
    prepared.channelById.get(base)?.per === 'corner'
      ? job.vehicle.fitted.map((corner) => keyOf(base, corner))
      : [base],
  );

/** How often readings of an ask were taken since the last work. */
export const timesTaken = (ask: Ask, ground: NowGround): number => {
  const keys = keysOfAsk(ask, ground);
  const since = lastWork(ground);
  return ground.job.snapshots.filter(
    ({ stamp, readings }) => stamp.at >= since && keys.some((key) => readings.get(key)?.kind === 'values'),
  ).length;
};

/** Asks of a kind that apply now and that nobody has set aside. */
export const openAsks = (kind: Ask['kind'], ground: NowGround): { ask: Ask; because: readonly Reason[] }[] =>
  ground.prepared.asks.flatMap((ask) => {
    if (ask.kind !== kind || ground.decisions.skipped.has(ask.id) || !mayBe(ask.state, ground)) return [];
    if (ground.diagnosis?.weighed.evidence.recorded.has(ask.id)) return [];
    const { holds, reasons } = answer(ask.when, ground.facts);
    // What is older than work is read again anyway.
    const isOld = reasons.some((reason) => reason.kind === 'finding' && reason.stale);
    return holds && !isOld ? [{ ask, because: reasons }] : [];
  });

const asked = (ground: NowGround): Now | null => {
  const open = openAsks('read', ground).find(({ ask }) => timesTaken(ask, ground) === 0);
  if (!open) return null;
  const { ask, because } = open;
  const session = {
    state: ask.state,
    readings: keysOfAsk(ask, ground),
    lamp: false,
    codes: false,
    conditions: ask.conditions.map((name) => ({ name, wants: [] })),
  };
  return {
    ...toRead('read', ask.id, session, because, ground, skipping(ask.id)),
    title: { kind: 'given', text: ask.title },
  };
};

/** Readings, conditions and facts that cost little and decide much. */
export const read = (ground: NowGround): Now | null =>
  wanted(ground, (step, session) => comesFirst(step, session, ground)) ??
  facts(ground) ??
  conditions(ground) ??
  // What was out before a repair is read again once its work is done, and not asked for on the way.
  (ground.faults.length === 0 && isInQuestion(ground) ? asked(ground) : null);

/** Readings that decide little, once no test pays any more: the vehicle as it was found, before the first work. */
export const readTheRest = (ground: NowGround): Now | null => wanted(ground, () => true);
