import type { Finding } from '../finding.ts';
import type { Verb } from '../job.ts';
import { repairVerbs, verbs, workVerbs } from '../job.ts';
import type { Step } from '../pack.ts';
import type { Condition, Fact, LogPattern } from '../steps/condition.ts';
import { holdsReading } from '../steps/facts.ts';
import { matches, matchesAny } from '../steps/log-entries.ts';
import { wantedConditions } from '../wanted/circumstances.ts';
import { stillToTake } from '../wanted/still-to-take.ts';
import type { Reason, WorksheetStep } from '../worksheet-parts.ts';
import { type Command, choose, logged, say } from './command.ts';
import { mayBe, type NowGround } from './now-ground.ts';
import { addCommand, type Session, toState, wordsOf } from './reading.ts';

/** Work that can go wrong, so that the entry says how it went. */
const withResult: readonly Verb[] = ['programmed', 'configured', 'calibrated', 'drove'];

/** These tell a test or a look, and a step is more than either; a repair is no step, and would have to be proved. */
const tooLittle: readonly string[] = ['inspected', 'tested', 'work'];

const byPattern = ({ did, what }: LogPattern): Command | null => {
  const verb = verbs.find((one) => did.includes(one));
  if (verb === undefined || tooLittle.includes(verb) || repairVerbs.includes(verb)) return null;
  return logged(
    verb,
    what?.[0] ?? null,
    ...(withResult.includes(verb) ? [choose('result', ['passed', 'failed'])] : []),
  );
};

/** Whether a step stands for some work, such as to program the module. */
const isWorkOf = ({ answeredBy }: Step, { did, what }: LogPattern): boolean =>
  answeredBy.some(
    (pattern) =>
      did.some((verb) => workVerbs.includes(verb as Verb) && pattern.did.includes(verb)) &&
      (pattern.what ?? []).some((name) => what?.includes(name)),
  );

/** An entry that a step lacks; work that another step stands for is no way to answer it. */
const logFact = (id: string, reasons: readonly Reason[], { prepared }: NowGround): Command | null => {
  for (const reason of reasons) {
    if (reason.kind !== 'not-logged') continue;
    const pattern = { did: reason.did as Verb[], what: reason.what };
    if (!prepared.steps.some((other) => other.id !== id && isWorkOf(other, pattern)))
      return byPattern(pattern);
  }
  return null;
};

/** Every log entry that a condition asks for. */
const patternsIn = (condition: Condition | null): LogPattern[] => {
  if (condition === null) return [];
  if ('all' in condition) return condition.all.flatMap(patternsIn);
  if ('any' in condition) return condition.any.flatMap(patternsIn);
  return 'fact' in condition && condition.fact === 'log' ? [condition.pattern] : [];
};

/** An entry of the step that later work has undone, to be made again before anything is read. */
const again = (step: Step | undefined, { job: { log } }: NowGround): Command | null => {
  if (!step) return null;
  const undone = log.findLastIndex((entry) => matchesAny(entry, step.undoneBy));
  const old = patternsIn(step.answeredIf).find((pattern) => {
    const place = log.findLastIndex((entry) => matches(entry, pattern));
    return place >= 0 && place < undone;
  });
  return old ? byPattern(old) : null;
};

/** What a step lacks that can only be read: a state, a code list. */
const byReading = (step: WorksheetStep, ground: NowGround): Command | null => {
  const lacks = step.because.find(
    (reason) => (reason.kind === 'not-taken' || reason.kind === 'no-code-list') && !reason.tooLate,
  );
  if (lacks?.kind === 'no-code-list')
    return { kind: 'add', state: 'key-on', names: [], several: [], conditions: [], lamp: true, codes: true };
  if (lacks?.kind !== 'not-taken') return null;
  const state = lacks.states[0] as Parameters<typeof addCommand>[0]['state'];
  const session = stillToTake(ground, ground.prepared).find((one) => one.state === state);
  if (!session) return null;
  return addCommand({ ...session, conditions: toState(session.conditions) });
};

/** The finding that a reason is about, where it is read anew: not taken, older than work, or out at a moment that is over. */
const findingOf = (reason: Reason, { findings }: NowGround): Finding | undefined => {
  if (reason.kind === 'finding') return findings.find(({ id, moment }) => id === reason.finding && moment);
  if (reason.kind !== 'finding-wanted') return undefined;
  return findings.find(
    ({ check, verdict, stale }) => check === reason.check && (verdict === 'not-taken' || stale),
  );
};

/** What a check lacks that a step or a hold point wants to be good. */
export const byFinding = (reasons: readonly Reason[], ground: NowGround): Session | null => {
  for (const reason of reasons) {
    const finding = findingOf(reason, ground);
    const check = ground.prepared.checks.find(({ id }) => id === finding?.check);
    const state = finding?.readIn.find((one) => mayBe(one, ground));
    if (!finding || !check || !state || finding.channels.length === 0) continue;
    const needs = Object.entries(check.needs).map(([name, word]) => ({ name, wants: word ? [word] : [] }));
    const wanted = wantedConditions(
      finding.channels,
      state,
      ground.job,
      ground.prepared,
      new Set([check.id]),
    );
    const others = toState(wanted).filter(({ name }) => !(name in check.needs));
    const conditions = [...needs, ...others];
    const several = finding.missing?.why === 'one-reading' ? finding.channels : [];
    return { state, readings: finding.channels, several, lamp: false, codes: false, conditions };
  }
  return null;
};

/** Every fact of a condition that asks what a snapshot states. */
const statedIn = (condition: Condition | null): Extract<Fact, { fact: 'conditions' }>[] => {
  if (condition === null) return [];
  if ('all' in condition) return condition.all.flatMap(statedIn);
  if ('any' in condition) return condition.any.flatMap(statedIn);
  return 'fact' in condition && condition.fact === 'conditions' ? [condition] : [];
};

/** Conditions that a step wants stated of a snapshot, where nobody said otherwise of it. */
const byConditions = (step: Step | undefined, { job }: NowGround): Command | null => {
  const [fact] = statedIn(step?.answeredIf ?? null);
  const snapshot =
    fact &&
    job.snapshots.findLast(
      ({ state, readings }) =>
        (fact.states.length === 0 || fact.states.includes(state)) &&
        holdsReading({ readings }, fact.channels),
    );
  if (!snapshot) return null;
  const words: Partial<Readonly<Record<string, string>>> = snapshot.conditions.words;
  const open = Object.entries(fact.words).filter(([name, word]) => words[name] !== word);
  // It stood otherwise: it has to be moved, and read again.
  if (open.length === 0 || open.some(([name]) => words[name] !== undefined)) return null;
  return {
    kind: 'fix',
    snapshot: snapshot.id,
    conditions: open.map(([name, word]) => ({ name, wants: word === undefined ? wordsOf(name) : [word] })),
  };
};

const ifAny = (session: Session | null): Command | null => session && addCommand(session);

const isTooLate = (reason: Reason): boolean =>
  (reason.kind === 'not-taken' || reason.kind === 'no-code-list') && reason.tooLate;

/** The line that answers a step: its own entry, the readings that it lacks, or that it is completed. */
export const stepCommand = (step: WorksheetStep, ground: NowGround): Command => {
  const pack: Step | undefined = ground.prepared.steps.find(({ id }) => id === step.id);
  const name = pack?.name ?? step.id;
  if (step.because.some(isTooLate)) return logged('skipped', name, say('reason'));
  const own = pack?.answeredBy.map(byPattern).find((command) => command !== null);
  return (
    own ??
    again(pack, ground) ??
    logFact(step.id, step.because, ground) ??
    byReading(step, ground) ??
    ifAny(byFinding(step.because, ground)) ??
    byConditions(pack, ground) ??
    logged('completed', name, say('by'))
  );
};
