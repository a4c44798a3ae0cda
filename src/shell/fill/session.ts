import type { Instant, Job } from '../../core/job.ts';
import { type StillToTake, stillToTake } from '../../core/wanted/still-to-take.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import type { Fault } from '../../report/words/fault-words.ts';
import type { OpenJob } from '../open-job.ts';
import { type Outcome, trouble } from '../save/change-job.ts';
import { askFor, introduce, tell } from './ask.ts';
import type { Memory, Surroundings } from './fill-state.ts';
import { goBack, remember, save } from './keep.ts';
import { type Question, questionsOf } from './questions.ts';
import { alreadySays, asBefore, snapshotToGoOnWith } from './where-to.ts';

/** How a session ended. */
export interface Ended {
  readonly answers: number;
  /** True where answers stopped coming before the questions did. */
  readonly stopped: boolean;
  /** What kept an answer from being saved. */
  readonly trouble: Exclude<Outcome, { kind: 'changed' }> | null;
  /** What is still to take. */
  readonly left: readonly StillToTake[];
  readonly last: OpenJob | null;
}

const questionsLeft = (
  opened: OpenJob,
  sheet: BriefWorksheet,
  memory: Memory,
  { everything, anew, now }: Surroundings,
): { readonly questions: readonly Question[]; readonly still: readonly StillToTake[] } => {
  const { prepared } = opened.read;
  const still = stillToTake(sheet, prepared, everything);
  const channels = prepared.channelById;
  const questions = still
    .filter(({ waitsFor }) => everything || waitsFor.length === 0)
    .flatMap((one) => {
      if (!memory.snapshots.has(one.state) && !anew) {
        const before = snapshotToGoOnWith(one.state, sheet.job, now());
        if (before) memory.snapshots.set(one.state, before.id);
      }
      const id = memory.snapshots.get(one.state);
      const snapshot = sheet.job.snapshots.find((other) => other.id === id);
      return questionsOf(one, channels).filter(
        (question) => !memory.settled.has(question.id) && !(snapshot && alreadySays(snapshot, question.name)),
      );
    });
  return { questions, still };
};

/** Why a session without a terminal ends at an answer that cannot be read. */
const outOfStep = ({ message, hint }: Fault) =>
  trouble(`${message}; it and the answers after it were not taken`, hint);

/** What somebody typed before is offered again, where that can be. */
const keptFor = (question: Question | undefined, memory: Memory, job: Job, now: Instant): string => {
  if (memory.next) return memory.next.kept;
  return question?.name.kind === 'condition' ? asBefore(question.name.name, job, now) : '';
};

/**
 * Asks for what the packs still want, one thing at a time, and saves each answer before the next question. Empty
 * skips, `<` goes back; it ends with the questions or with the answers.
 */
export const runSession = async (around: Surroundings): Promise<Ended> => {
  const memory: Memory = {
    given: [],
    settled: new Set(),
    snapshots: new Map(),
    cautioned: new Set(),
    next: null,
    heading: null,
    lastAnswer: null,
  };
  const ended = (rest: Partial<Ended>, last: OpenJob | null, left: readonly StillToTake[]): Ended => ({
    answers: memory.given.filter(({ saved }) => saved !== null).length,
    stopped: false,
    trouble: null,
    left,
    last,
    ...rest,
  });
  for (;;) {
    const opened = await around.open();
    if ('kind' in opened) return ended({ trouble: opened }, null, []);
    const sheet = around.sheetOf(opened);
    if (sheet === null || opened.read.job === null) return ended({}, opened, []);
    const { questions, still } = questionsLeft(opened, sheet, memory, around);
    const question = memory.next?.question ?? questions[0];
    const { job } = opened.read;
    const kept = keptFor(question, memory, job, around.now());
    memory.next = null;
    if (question === undefined) return ended({}, opened, still);
    introduce(question, questions.filter(({ state }) => state === question.state).length, memory, around);
    const answer = await askFor(question, kept, job.instruments, around);
    if (answer.kind === 'stop') return ended({ stopped: true }, opened, still);
    if (answer.kind === 'unread')
      return ended({ stopped: true, trouble: outOfStep(answer.fault) }, opened, still);
    if (answer.kind === 'back') await goBack(question, memory, around);
    if (answer.kind === 'skip') {
      memory.given.push({ question, typed: '', saved: null, began: false });
      memory.settled.add(question.id);
    }
    if (answer.kind !== 'part') continue;
    const saved = await save(question, answer.part, memory, around);
    if (!saved.ok) return ended({ trouble: saved.outcome }, opened, still);
    remember(question, answer, saved, memory, around.now());
    tell(answer, saved.snapshot, saved.after, around);
  }
};
