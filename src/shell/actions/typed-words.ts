import type { Assignment } from '../../input/typed/assignment.ts';
import { jsonAssignments } from '../../input/typed/json-assignments.ts';
import type { TypedFault } from '../../input/typed/typed.ts';
import { typedAssignment } from '../../input/typed/typed-snapshot.ts';
import { askDoubts } from '../entry/ask-doubts.ts';
import { openJobFile } from '../open-job.ts';
import type { Shell } from '../shell.ts';
import { stdinText } from '../stdin-text.ts';
import { type ChangeFlags, readingFor, refuse, refuseFile, styleFor } from './changing.ts';

/** What was typed, and what of it has no name or no value. */
export interface TypedWords {
  readonly assignments: readonly Assignment[];
  readonly faults: readonly TypedFault[];
}

/** The words, with JSON from standard input where a dash stands; null where that is no JSON, which is told. */
export const assignmentsOf = async (
  words: readonly string[],
  file: string,
  flags: ChangeFlags,
  shell: Shell,
): Promise<TypedWords | null> => {
  const faults: TypedFault[] = [];
  const assignments: Assignment[] = [];
  for (const word of words) {
    if (word === '-') {
      const decoded = await stdinText(shell.io);
      const read =
        'problem' in decoded
          ? { assignments: [], problems: [decoded.problem] }
          : jsonAssignments(decoded.text, '-');
      if (read.problems.length > 0) {
        refuseFile('-', read.problems, null, flags, shell);
        return null;
      }
      assignments.push(...read.assignments);
      continue;
    }
    const typed = typedAssignment(word);
    if (typed.ok) assignments.push(typed.value);
    else faults.push(typed.fault);
  }
  if (assignments.length === 0 && faults.length === 0) {
    faults.push({
      typed: `${file} …`,
      message: 'no reading is given',
      hint: 'write it like supply=12.2 LF=2.48, or - for JSON on standard input',
    });
  }
  return { assignments, faults };
};

/** Readings that nobody would believe, asked about where somebody sits; null where that ended it, which was told. */
export const withoutDoubts = async (
  file: string,
  words: TypedWords,
  flags: ChangeFlags,
  shell: Shell,
): Promise<TypedWords | null> => {
  // What was piped in has used up standard input.
  if (!shell.io.isInteractive) return words;
  const reading = readingFor(flags, shell);
  const opened = await openJobFile(file, flags.rules, shell.io, reading.libraries, reading.asOf);
  // What is wrong with the file is told by whoever writes to it.
  if (!('read' in opened) || opened.read.job === null) return words;
  const { job, prepared } = opened.read;
  const prompter = shell.io.openPrompter();
  try {
    const style = styleFor(flags, opened.found.shop, shell);
    const print = (text: string): void => shell.io.stdout.write(text);
    const asking = { prompter, style, print };
    const sure = await askDoubts(words.assignments, prepared.channelById, job.instruments, asking);
    if (sure !== null) return { ...words, assignments: sure };
    refuse([{ message: 'stopped; nothing was written', hint: null }], flags, shell);
    return null;
  } finally {
    prompter.close();
  }
};
