import type { Finding } from '../../core/finding.ts';
import type { State } from '../../core/job.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import { codeOf, type Part, typedPart } from '../../input/typed/typed-snapshot.ts';
import { verdictLines } from '../../report/entry/verdicts.ts';
import { wrap } from '../../report/sheet/grid.ts';
import { type Fault, faultBelow } from '../../report/words/fault-words.ts';
import type { OpenJob } from '../open-job.ts';
import type { Memory, Surroundings } from './fill-state.ts';
import type { Question } from './questions.ts';

const headings: Readonly<Record<State, string>> = {
  rest: 'Key off, rested',
  'key-on': 'Key on, engine off',
  cranking: 'Cranking',
  running: 'Engine running',
  driving: 'Driving',
};

/** A heading where the state changes, with the snapshot that is gone on with, and each caution once. */
export const introduce = (
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

export type Answer =
  | { readonly kind: 'stop' | 'back' | 'skip' }
  | { readonly kind: 'unread'; readonly fault: Fault }
  | { readonly kind: 'part'; readonly part: Part; readonly typed: string };

/** Asks until there is an answer that can be read; wrong text is asked for again, and kept to be mended. */
export const askFor = async (
  question: Question,
  keptBefore: string,
  instruments: Parameters<typeof typedPart>[2],
  { prompter, style, print }: Surroundings,
): Promise<Answer> => {
  let kept = keptBefore;
  for (;;) {
    const answer = await prompter.ask(style.text(`  ${question.text}: `), kept);
    if (answer === null) return { kind: 'stop' };
    const typed = answer.trim();
    if (typed === '<') return { kind: 'back' };
    if (typed === '') return { kind: 'skip' };
    const part = typedPart(question.name, { name: question.id, typed }, instruments);
    if (part.ok) return { kind: 'part', part: part.value, typed };
    // Nobody is there to mend it, and the answers that follow may belong to other questions.
    if (!prompter.isTerminal) return { kind: 'unread', fault: part.fault };
    print(faultBelow(part.fault, style));
    kept = answer;
  }
};

const findingsAbout = (sheet: BriefWorksheet, snapshot: string, part: Part): Finding[] => {
  const { name } = part;
  const own = sheet.findings.filter((one) => one.snapshot === snapshot);
  if (name.kind === 'reading') return own.filter(({ channels }) => channels.includes(name.key));
  if (name.kind === 'lamp') return own.filter(({ kind }) => kind === 'lamp');
  if (name.kind !== 'codes') return [];
  // Of a list that grows, only the code just typed.
  const codes = own.filter(({ kind }) => kind === 'stored-codes');
  return part.value.kind === 'list' ? codes : codes.filter(({ subject }) => subject === codeOf(part));
};

/** What the checks say of an answer, below it; how it was understood only where that is not what was typed. */
export const tell = (
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
