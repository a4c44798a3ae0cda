import type { Instant, Job } from '../../core/job.ts';
import { type StillToTake, stillToTake } from '../../core/wanted/still-to-take.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import type { Fault } from '../../report/words/fault-words.ts';
import type { OpenJob } from '../open-job.ts';
import { type Outcome, trouble } from '../save/change-job.ts';
import { type Answer, askFor, introduce } from './ask.ts';
import type { Known, Memory, Surroundings } from './fill-state.ts';
import { goBack, remember, save } from './keep.ts';
import { type Question, questionsOf } from './questions.ts';
import { questionsWithoutReading } from './questions-without-reading.ts';
import { tell } from './tell.ts';
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
  /** The sheet as it is now; null where the job cannot be judged any more. */
  readonly last: BriefWorksheet | null;
}

/** The questions of the first state that has any left; for those of others nothing need be worked out yet. */
const questionsOfState = (
  { opened, still }: Known,
  sheet: BriefWorksheet,
  { snapshots, settled }: Memory,
  { everything, anew, now }: Surroundings,
): readonly Question[] => {
  const channels = opened.read.prepared.channelById;
  for (const one of still) {
    if (!everything && one.waitsFor.length > 0) continue;
    if (!snapshots.has(one.state) && !anew) {
      const earlier = snapshotToGoOnWith(one.state, sheet.job, now());
      if (earlier) snapshots.set(one.state, earlier.id);
    }
    const id = snapshots.get(one.state);
    const snapshot = sheet.job.snapshots.find((other) => other.id === id);
    const left = questionsOf(one, channels).filter(
      (question) => !settled.has(question.id) && !(snapshot && alreadySays(snapshot, question.name)),
    );
    if (left.length > 0) return left;
  }
  return [];
};

/** What is to be asked next, with all that stands under the same heading. */
const questionsLeft = (
  known: Known,
  sheet: BriefWorksheet,
  memory: Memory,
  around: Surroundings,
): readonly Question[] => {
  const { settled, snapshots } = memory;
  memory.first ??= new Set(known.unread.map(({ id }) => id));
  const { first } = memory;
  // What was skipped of a snapshot of this session is not asked for again under its name.
  const isSkipped = ({ target, typed }: Question): boolean =>
    target.kind === 'snapshot' &&
    [...snapshots].some(([state, id]) => id === target.id && settled.has(`${state} ${typed}`));
  const unread = known.unread.filter(({ id }) => !settled.has(id));
  const begun = unread.filter(({ id }) => first.has(id));
  if (begun.length > 0) return begun;
  const ofState = questionsOfState(known, sheet, memory, around);
  return ofState.length > 0 ? ofState : unread.filter((one) => !isSkipped(one));
};

/** Why a session without a terminal ends at an answer that cannot be read. */
const outOfStep = ({ message, hint }: Fault) =>
  trouble(`${message}; it and the answers after it were not taken`, hint);

/** The answer that a question shows: the one that it had before, or what was said of a condition a short while ago. */
const keptFor = ({ name, target }: Question, job: Job, now: Instant): string => {
  if (name.kind !== 'condition') return '';
  const snapshot = target.kind === 'snapshot' ? job.snapshots.find(({ id }) => id === target.id) : null;
  return asBefore(name.name, job, snapshot?.stamp.at ?? now, snapshot?.id ?? null);
};

const knownWith = (opened: OpenJob, sheet: BriefWorksheet | null, everything: boolean): Known => {
  const { prepared } = opened.read;
  const still = sheet ? stillToTake(sheet, prepared, everything) : [];
  return { opened, sheet, still, unread: sheet ? questionsWithoutReading(sheet, prepared) : [] };
};

const judged = (opened: OpenJob, { sheetOf, everything }: Surroundings): Known =>
  knownWith(opened, sheetOf(opened), everything);

/** The job as it is now, judged anew only where its file has changed. */
const knownNow = async (
  memory: Memory,
  around: Surroundings,
): Promise<Known | Exclude<Outcome, { kind: 'changed' }>> => {
  const opened = await around.open(memory.known?.opened ?? null);
  if ('kind' in opened) return opened;
  if (memory.known?.opened !== opened) memory.known = judged(opened, around);
  return memory.known ?? judged(opened, around);
};

const freshMemory = (known: Known): Memory => ({
  given: [],
  settled: new Set(),
  snapshots: new Map(),
  cautioned: new Set(),
  next: null,
  heading: null,
  first: null,
  lastAnswer: null,
  known,
});

/** How it stands when a session ends. */
const ended = ({ given }: Memory, known: Known | null, rest: Partial<Ended> = {}): Ended => ({
  answers: given.filter(({ saved }) => saved !== null).length,
  stopped: false,
  trouble: null,
  left: known?.still ?? [],
  last: known?.sheet ?? null,
  ...rest,
});

const skip = (question: Question, { given, settled }: Memory): void => {
  given.push({ question, typed: '', saved: null, began: false });
  settled.add(question.id);
};

/** Saves an answer and says what the checks make of it; what kept it from being saved, if anything did. */
const take = async (
  question: Question,
  answer: Extract<Answer, { kind: 'given' }>,
  before: Known,
  memory: Memory,
  around: Surroundings,
): Promise<Ended['trouble']> => {
  const saved = await save(question, answer.understood, memory, around);
  if (!saved.ok) return saved.outcome;
  remember(question, answer, saved, memory, around.now());
  memory.known = judged(saved.after, around);
  tell(answer, saved.snapshot, before.sheet, memory.known.sheet, around);
  return null;
};

interface Next {
  readonly question: Question;
  /** The answer that is shown, and kept by Enter. */
  readonly kept: string;
  /** The answer that was given to it before it was gone back to. */
  readonly old: string;
}

/** The next question, introduced; null where there is none left, or nothing to ask about. */
const nextQuestion = (known: Known, memory: Memory, around: Surroundings): Next | null => {
  const { sheet, opened } = known;
  const { job } = opened.read;
  if (sheet === null || job === null) return null;
  const questions = questionsLeft(known, sheet, memory, around);
  const { next } = memory;
  const question = next?.question ?? questions[0];
  memory.next = null;
  if (question === undefined) return null;
  introduce(question, questions, memory, known, around);
  const old = next?.kept ?? '';
  return { question, old, kept: old || keptFor(question, job, around.now()) };
};

/**
 * Asks for what the packs still want, one thing at a time, and saves each answer before the next question. Empty
 * skips or keeps the old answer, `<` goes back; it ends with the questions or with the answers.
 *
 * @param first the job as it was opened before, with its sheet
 */
export const runSession = async (
  first: { readonly opened: OpenJob; readonly sheet: BriefWorksheet },
  around: Surroundings,
): Promise<Ended> => {
  const memory = freshMemory(knownWith(first.opened, first.sheet, around.everything));
  for (;;) {
    const known = await knownNow(memory, around);
    if ('kind' in known) return ended(memory, null, { trouble: known });
    const question = nextQuestion(known, memory, around);
    if (question === null) return ended(memory, known);
    const answer = await askFor(question.question, question.kept, known, around);
    if (answer.kind === 'stop') return ended(memory, known, { stopped: true });
    if (answer.kind === 'unread')
      return ended(memory, known, { stopped: true, trouble: outOfStep(answer.fault) });
    if (answer.kind === 'back') await goBack(question.question, question.old, memory, around);
    if (answer.kind === 'skip') skip(question.question, memory);
    if (answer.kind !== 'given') continue;
    const refused = await take(question.question, answer, known, memory, around);
    if (refused) return ended(memory, known, { trouble: refused });
  }
};
