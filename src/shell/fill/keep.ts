import type { Instant } from '../../core/job.ts';
import { keyOfName, type Part } from '../../input/typed/typed-snapshot.ts';
import { faultBelow } from '../../report/words/fault-words.ts';
import type { OpenJob } from '../open-job.ts';
import { changeJob, type Outcome } from '../save/change-job.ts';
import { takeBack } from '../save/take-back.ts';
import type { Answer } from './ask.ts';
import type { Memory, Surroundings } from './fill-state.ts';
import { planAnswer } from './plan-answer.ts';
import type { Question } from './questions.ts';
import { isOneMoment } from './where-to.ts';

/** Goes back to the question before: what was saved for it is taken back, and its text can be mended. */
export const goBack = async (asked: Question, memory: Memory, around: Surroundings): Promise<void> => {
  // Where there is no way back, the same is asked again.
  memory.next = { question: asked, kept: '' };
  const { print, style, file, reading } = around;
  const last = memory.given.at(-1);
  if (!last) {
    print(`${style.text('    This is the first question.')}\n`);
    return;
  }
  if (last.saved !== null) {
    const back = await takeBack(file, reading.io, last.saved);
    if (back.kind !== 'taken-back') {
      const message = back.kind === 'trouble' ? (back.troubles[0]?.message ?? '') : 'the file has mistakes';
      print(faultBelow({ message, hint: 'correct it in an editor' }, style));
      return;
    }
    if (last.began) memory.snapshots.delete(last.question.state);
  }
  memory.given.pop();
  memory.settled.delete(last.question.id);
  memory.next = { question: last.question, kept: last.typed };
};

type Saved =
  | {
      readonly ok: true;
      readonly snapshot: string;
      readonly began: boolean;
      readonly digest: string;
      readonly after: OpenJob;
    }
  | { readonly ok: false; readonly outcome: Exclude<Outcome, { kind: 'changed' }> };

/** Saves one answer at once, so that an interruption loses nothing. */
export const save = async (
  question: Question,
  part: Part,
  memory: Memory,
  around: Surroundings,
): Promise<Saved> => {
  const { file, reading, now, toMinute } = around;
  const session = memory.snapshots.get(question.state) ?? null;
  let snapshot = '';
  let began = false;
  const outcome = await changeJob(
    file,
    (opened) => {
      // Somebody may have worked on the vehicle since the question was asked.
      const job = opened.read.job;
      const found = job?.snapshots.find(({ id }) => id === session);
      const holds = job && found && isOneMoment(found, job, now(), memory.lastAnswer);
      const planned = planAnswer(opened, part, question.state, holds ? session : null, now(), toMinute);
      snapshot = planned.snapshot;
      began = snapshot !== session;
      return { change: planned.change, what: `${keyOfName(part.name)} ${part.echo} of ${snapshot}` };
    },
    reading,
  );
  if (outcome.kind !== 'changed') return { ok: false, outcome };
  const { after, digest } = outcome;
  return { ok: true, snapshot, began, digest, after };
};

const another = (question: Question): Question => ({
  ...question,
  id: `${question.id}+`,
  text: 'another code (Enter if there are no more)',
});

export const remember = (
  question: Question,
  { part, typed }: Extract<Answer, { kind: 'part' }>,
  { snapshot, began, digest }: Extract<Saved, { ok: true }>,
  memory: Memory,
  now: Instant,
): void => {
  memory.lastAnswer = now;
  memory.given.push({ question, typed, saved: digest, began });
  memory.settled.add(question.id);
  memory.snapshots.set(question.state, snapshot);
  const more = part.name.kind === 'codes' && part.value.kind !== 'list';
  memory.next = more ? { question: another(question), kept: '' } : null;
};
