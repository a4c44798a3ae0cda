import type { State } from '../../core/job.ts';
import { numbered } from '../../input/typed/chosen-word.ts';
import { doubtText } from '../../input/typed/typed.ts';
import { wrap } from '../../report/sheet/grid.ts';
import { timeText } from '../../report/times.ts';
import { type Fault, faultBelow } from '../../report/words/fault-words.ts';
import type { Known, Memory, Surroundings } from './fill-state.ts';
import { groupOf, type Question } from './questions.ts';
import { type Understood, understand } from './understand.ts';

const headings: Readonly<Record<State, string>> = {
  rest: 'Key off, rested',
  'key-on': 'Key on, engine off',
  cranking: 'Cranking',
  running: 'Engine running',
  driving: 'Driving',
};

const headingOf = (
  { target }: Question,
  questions: readonly Question[],
  memory: Memory,
  { opened }: Known,
): string => {
  const count = questions.filter((one) => groupOf(one.target) === groupOf(target)).length;
  if (target.kind === 'vehicle') return `The vehicle: ${count} to ask for`;
  if (target.kind === 'state') {
    const goesOn = memory.snapshots.get(target.state);
    const tail = goesOn === undefined ? '' : `; going on with ${goesOn}`;
    return `${headings[target.state]}: ${count} to ask for${tail}`;
  }
  const { job } = opened.read;
  const snapshot = job?.snapshots.find(({ id }) => id === target.id);
  const when = job && snapshot ? `, ${timeText(snapshot.stamp.at, job.zone)}` : '';
  return `When ${target.id} was read${when}: ${count} that nobody stated`;
};

/** A heading where the group changes, with the snapshot that is gone on with, and each caution once. */
export const introduce = (
  question: Question,
  questions: readonly Question[],
  memory: Memory,
  known: Known,
  { print, style }: Surroundings,
): void => {
  const { options, text, chalk } = style;
  const group = groupOf(question.target);
  if (memory.heading !== group) {
    print(`\n${chalk.bold(text(headingOf(question, questions, memory, known)))}\n`);
    memory.heading = group;
  }
  for (const caution of question.cautions) {
    if (memory.cautioned.has(caution)) continue;
    memory.cautioned.add(caution);
    print(`${wrap(text(`CAUTION: ${caution}`), options.width, 2, 4).join('\n')}\n`);
  }
};

/**
 * A question as it is put: its name, what that is, the words to choose from, and the old answer in brackets.
 *
 * @param short true where the number of a word will do
 */
export const promptOf = (
  { typed, title, words, remarks, unit }: Question,
  kept: string,
  short: boolean,
): string => {
  const choice = words.length === 0 ? [] : [short ? numbered(words) : words.join(', ')];
  const inside = [...(title === null ? [] : [title]), ...choice, ...remarks].join('; ');
  const old = kept === '' ? '' : ` [${kept}]`;
  return `  ${typed}${inside === '' ? '' : ` (${inside})`}${unit === null ? '' : `, ${unit}`}${old}: `;
};

export type Answer =
  | { readonly kind: 'stop' | 'back' | 'skip' }
  | { readonly kind: 'unread'; readonly fault: Fault }
  | { readonly kind: 'given'; readonly understood: Understood; readonly typed: string };

/**
 * What a line says before it is read: to go back, to skip, or what is to be read, which may be the old answer or the
 * one that was doubted.
 */
const lineMeant = (
  line: string,
  { name }: Question,
  kept: string,
  doubted: string,
): 'back' | 'skip' | { readonly typed: string } => {
  if (line === '<') return 'back';
  if (line === '' && kept !== '') return { typed: kept };
  // Of codes a dash says that the list is empty.
  if (line === '' || (line === '-' && name.kind !== 'codes')) return 'skip';
  return { typed: line === '!' && doubted !== '' ? `${doubted}!` : line };
};

/**
 * Asks until there is an answer that can be read. An old answer is shown and never put into the line: Enter keeps it,
 * and whatever is typed takes its place.
 */
export const askFor = async (
  question: Question,
  kept: string,
  { opened }: Known,
  { prompter, style, print }: Surroundings,
): Promise<Answer> => {
  const { job } = opened.read;
  if (job === null) throw new Error('a job with problems is not asked for');
  const { isTerminal } = prompter;
  let doubted = '';
  for (;;) {
    const answer = await prompter.ask(style.text(promptOf(question, kept, isTerminal)));
    if (answer === null) return { kind: 'stop' };
    const meant = lineMeant(answer.trim(), question, kept, doubted);
    if (typeof meant === 'string') return { kind: meant };
    const { typed } = meant;
    const read = understand(question, typed, job, isTerminal);
    if (read.ok) return { kind: 'given', understood: read.value, typed };
    // Nobody is there to mend it, and the answers that follow may belong to other questions.
    if (!isTerminal) return { kind: 'unread', fault: read.fault };
    const { doubt } = read.fault;
    doubted = doubt ? typed : '';
    print(doubt ? `    ${style.text(doubtText(doubt))}\n` : faultBelow(read.fault, style));
  }
};
