import { channelsOf } from '../../core/assess.ts';
import type { Finding } from '../../core/finding.ts';
import type { Instant, Job, State } from '../../core/job.ts';
import { type StillToTake, stillToTake } from '../../core/wanted/still-to-take.ts';
import type { Worksheet } from '../../core/worksheet.ts';
import { codeOf, keyOfName, type Part, typedPart } from '../../input/typed/typed-snapshot.ts';
import { oneLine } from '../../report/clean.ts';
import { verdictLines } from '../../report/entry/verdicts.ts';
import { wrap } from '../../report/sheet/grid.ts';
import type { Style } from '../../report/style.ts';
import type { OpenJob } from '../open-job.ts';
import type { Prompter } from '../prompter.ts';
import { changeJob, type Outcome, type Reading, trouble } from '../save/change-job.ts';
import { takeBack } from '../save/take-back.ts';
import { planAnswer } from './plan-answer.ts';
import { type Question, questionsOf } from './questions.ts';
import { alreadySays, asBefore, isOneMoment, snapshotToGoOnWith } from './where-to.ts';

/** What a session of questions needs from around it. */
export interface Surroundings {
  readonly file: string;
  readonly reading: Reading;
  readonly prompter: Prompter;
  readonly style: Style;
  readonly print: (text: string) => void;
  readonly now: () => Instant;
  readonly toMinute: boolean;
  readonly sheetOf: (opened: OpenJob) => Worksheet | null;
  readonly open: () => Promise<OpenJob | Extract<Outcome, { kind: 'problems' }>>;
  /** Ask, too, for what only a test wants, and for what outstanding work would make stale again. */
  readonly everything: boolean;
  /** Begin new snapshots even where a session was interrupted a short while ago. */
  readonly anew: boolean;
}

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

interface Given {
  readonly question: Question;
  readonly typed: string;
  /** SHA-256 of the file once it was saved; null where nothing was. */
  readonly saved: string | null;
  /** True where the answer began a snapshot. */
  readonly began: boolean;
}

const headings: Readonly<Record<State, string>> = {
  rest: 'Key off, rested',
  'key-on': 'Key on, engine off',
  cranking: 'Cranking',
  running: 'Engine running',
  driving: 'Driving',
};

/** What a session remembers: what was asked and said, and which snapshot the answers of a state go to. */
interface Memory {
  readonly given: Given[];
  readonly settled: Set<string>;
  readonly snapshots: Map<State, string>;
  readonly cautioned: Set<string>;
  /** A question to ask before all others: one gone back to, or the next code of a list. */
  next: { readonly question: Question; readonly kept: string } | null;
  heading: State | null;
  lastAnswer: Instant | null;
}

const questionsLeft = (
  opened: OpenJob,
  sheet: Worksheet,
  memory: Memory,
  { everything, anew, now }: Surroundings,
): { readonly questions: readonly Question[]; readonly still: readonly StillToTake[] } => {
  const still = stillToTake(sheet, opened.read.packs, everything);
  const channels = channelsOf(opened.read.packs);
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

const findingsAbout = (sheet: Worksheet, snapshot: string, part: Part): Finding[] => {
  const { name } = part;
  const own = sheet.findings.filter((one) => one.snapshot === snapshot);
  if (name.kind === 'reading') return own.filter(({ channels }) => channels.includes(name.key));
  if (name.kind === 'lamp') return own.filter(({ kind }) => kind === 'lamp');
  if (name.kind !== 'codes') return [];
  // Of a list that grows, only the code just typed.
  const codes = own.filter(({ kind }) => kind === 'stored-codes');
  return part.value.kind === 'list' ? codes : codes.filter(({ subject }) => subject === codeOf(part));
};

/** A heading where the state changes, with the snapshot that is gone on with, and each caution once. */
const introduce = (
  question: Question,
  count: number,
  memory: Memory,
  { print, style }: Surroundings,
): void => {
  const { options, text, chalk } = style;
  if (memory.heading !== question.state) {
    const goesOn = memory.snapshots.get(question.state);
    const tail = goesOn === undefined ? '' : `; going on with ${goesOn}`;
    print(`\n${chalk.bold(text(`${headings[question.state]}: ${count} to ask for${tail}`))}\n`);
    memory.heading = question.state;
  }
  for (const caution of question.cautions) {
    if (memory.cautioned.has(caution)) continue;
    memory.cautioned.add(caution);
    print(`${wrap(text(`CAUTION: ${caution}`), options.width, 2, 4).join('\n')}\n`);
  }
};

type Answer =
  | { readonly kind: 'stop' | 'back' | 'skip' }
  | { readonly kind: 'unread'; readonly message: string; readonly hint: string | null }
  | { readonly kind: 'part'; readonly part: Part; readonly typed: string };

/** Asks until there is an answer that can be read; wrong text is asked for again, and kept to be mended. */
const askFor = async (
  question: Question,
  keptBefore: string,
  instruments: Parameters<typeof typedPart>[2],
  { prompter, style, print }: Surroundings,
): Promise<Answer> => {
  const { text, options } = style;
  let kept = keptBefore;
  for (;;) {
    const answer = await prompter.ask(text(`  ${question.text}: `), kept);
    if (answer === null) return { kind: 'stop' };
    const typed = answer.trim();
    if (typed === '<') return { kind: 'back' };
    if (typed === '') return { kind: 'skip' };
    const part = typedPart(question.name, { name: question.id, typed }, instruments);
    if (part.ok) return { kind: 'part', part: part.value, typed };
    const { message, hint } = part.fault;
    // Nobody is there to mend it, and the answers that follow may belong to other questions.
    if (!prompter.isTerminal) return { kind: 'unread', message, hint };
    const said = hint === null ? message : `${message}; ${hint}`;
    print(`${wrap(text(oneLine(said)), options.width, 4, 6).join('\n')}\n`);
    kept = answer;
  }
};

/** Goes back to the question before: what was saved for it is taken back, and its text can be mended. */
const goBack = async (asked: Question, memory: Memory, around: Surroundings): Promise<void> => {
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
      const why = back.kind === 'trouble' ? (back.troubles[0]?.message ?? '') : 'the file has mistakes';
      print(
        `${wrap(style.text(oneLine(`${why}; correct it in an editor`)), style.options.width, 4, 6).join('\n')}\n`,
      );
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
const save = async (question: Question, part: Part, memory: Memory, around: Surroundings): Promise<Saved> => {
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

const remember = (
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

/** What the checks say of an answer, below it; how it was understood only where that is not what was typed. */
const tell = (
  { part, typed }: Extract<Answer, { kind: 'part' }>,
  snapshot: string,
  after: OpenJob,
  { sheetOf, style, print }: Surroundings,
): void => {
  const sheet = sheetOf(after);
  const findings = sheet === null ? [] : findingsAbout(sheet, snapshot, part);
  const asTyped = part.name.kind !== 'reading' && part.echo.toLowerCase() === typed.toLowerCase();
  print(verdictLines(asTyped ? null : part.echo, findings, style));
};

/** Why a session without a terminal ends at an answer that cannot be read. */
const outOfStep = ({ message, hint }: Extract<Answer, { kind: 'unread' }>) =>
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
    if (answer.kind === 'unread') return ended({ stopped: true, trouble: outOfStep(answer) }, opened, still);
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
