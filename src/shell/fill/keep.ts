import type { Instant } from '../../core/job.ts';
import { keyOfName } from '../../input/typed/typed-snapshot.ts';
import { faultBelow } from '../../report/words/fault-words.ts';
import type { OpenJob } from '../open-job.ts';
import { changeJob, type Outcome } from '../save/change-job.ts';
import { takeBack } from '../save/take-back.ts';
import type { Answer } from './ask.ts';
import type { Memory, Surroundings } from './fill-state.ts';
import { type PlannedAnswer, planAnew, planFact, planInto } from './plan-answer.ts';
import type { Question } from './questions.ts';
import type { Understood } from './understand.ts';
import { isOneMoment } from './where-to.ts';

/** Goes back to the question before: what was saved for it is taken back, and it is asked again with its old answer. */
export const goBack = async (
  asked: Question,
  kept: string,
  memory: Memory,
  around: Surroundings,
): Promise<void> => {
  // Where there is no way back, the same is asked again.
  memory.next = { question: asked, kept };
  const { print, style, file, reading } = around;
  const last = memory.given.at(-1);
  if (!last) {
    print(`${style.text('    This is the first question: there is none to go back to.')}\n`);
    return;
  }
  if (last.saved !== null) {
    const back = await takeBack(file, reading.io, last.saved);
    memory.known = null;
    if (back.kind !== 'taken-back') {
      const message = back.kind === 'trouble' ? (back.troubles[0]?.message ?? '') : 'the file has mistakes';
      print(faultBelow({ message, hint: 'correct it in an editor' }, style));
      return;
    }
    const { target } = last.question;
    if (last.began && target.kind === 'state') memory.snapshots.delete(target.state);
  }
  memory.given.pop();
  memory.settled.delete(last.question.id);
  memory.next = { question: last.question, kept: last.typed };
};

export type Saved =
  | {
      readonly ok: true;
      /** Where the answer went; null for a fact of the vehicle. */
      readonly snapshot: string | null;
      readonly began: boolean;
      readonly digest: string;
      readonly after: OpenJob;
    }
  | { readonly ok: false; readonly outcome: Exclude<Outcome, { kind: 'changed' }> };

/** Where an answer goes in a job as it is now: somebody may have worked on the vehicle since the question was asked. */
const planned = (
  opened: OpenJob,
  { target }: Question,
  understood: Understood,
  memory: Memory,
  { now, toMinute }: Surroundings,
): PlannedAnswer | null => {
  if (understood.kind === 'fact') return planFact(opened, understood);
  const { part } = understood;
  if (target.kind === 'snapshot') return planInto(opened, part, target.id);
  if (target.kind !== 'state') return null;
  const { job } = opened.read;
  const session = memory.snapshots.get(target.state) ?? null;
  const found = job?.snapshots.find(({ id }) => id === session);
  const holds = job && found && isOneMoment(found, job, now(), memory.lastAnswer);
  return (
    (holds && session !== null ? planInto(opened, part, session) : null) ??
    planAnew(opened, part, target.state, now(), toMinute)
  );
};

const titleOf = (understood: Understood, snapshot: string | null): string => {
  if (understood.kind === 'fact') return `${understood.fact} ${understood.echo} of the vehicle`;
  const { name, echo } = understood.part;
  return `${keyOfName(name)} ${echo} of ${snapshot}`;
};

/** Saves one answer at once, so that an interruption loses nothing. */
export const save = async (
  question: Question,
  understood: Understood,
  memory: Memory,
  around: Surroundings,
): Promise<Saved> => {
  const { file, reading } = around;
  const { target } = question;
  const session = target.kind === 'state' ? (memory.snapshots.get(target.state) ?? null) : null;
  let snapshot: string | null = null;
  const outcome = await changeJob(
    file,
    (opened) => {
      const plan = planned(opened, question, understood, memory, around);
      if (plan === null) {
        const message = 'the snapshot that this belongs to is gone';
        return { troubles: [{ message, hint: 'call fill again' }] };
      }
      snapshot = plan.snapshot;
      return { change: plan.change, what: titleOf(understood, snapshot) };
    },
    { ...reading, known: memory.known?.opened ?? null, by: 'fill' },
  );
  if (outcome.kind !== 'changed') return { ok: false, outcome };
  const { after, digest } = outcome;
  return { ok: true, snapshot, began: target.kind === 'state' && snapshot !== session, digest, after };
};

const another = (question: Question): Question => ({
  ...question,
  id: `${question.id}+`,
  typed: 'another code',
  title: null,
  remarks: ['Enter if there are no more'],
});

export const remember = (
  question: Question,
  { understood, typed }: Extract<Answer, { kind: 'given' }>,
  { snapshot, began, digest }: Extract<Saved, { ok: true }>,
  memory: Memory,
  now: Instant,
): void => {
  const { target } = question;
  memory.given.push({ question, typed, saved: digest, began });
  memory.settled.add(question.id);
  if (target.kind === 'state') {
    memory.lastAnswer = now;
    if (snapshot !== null) memory.snapshots.set(target.state, snapshot);
  }
  const part = understood.kind === 'part' ? understood.part : null;
  const more = part?.name.kind === 'codes' && part.value.kind !== 'list';
  memory.next = more ? { question: another(question), kept: '' } : null;
};
