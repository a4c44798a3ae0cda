import type { Pair } from '../../input/edit/value.ts';
import type { Assignment } from '../../input/typed/assignment.ts';
import { jsonAssignments } from '../../input/typed/json-assignments.ts';
import type { TypedFault } from '../../input/typed/typed.ts';
import { keyOfName, typedAssignment } from '../../input/typed/typed-snapshot.ts';
import { decode } from '../../input/yaml/decode.ts';
import { changesList } from '../../report/entry/changes-list.ts';
import { snapshotFindings } from '../../report/entry/snapshot.ts';
import { writtenText } from '../../report/entry/written.ts';
import { footer } from '../../report/sheet/sheet.ts';
import { askDoubts } from '../entry/ask-doubts.ts';
import { type PlannedSnapshot, planSnapshot, type SnapshotRequest } from '../entry/plan-snapshot.ts';
import { type OpenJob, openJobFile } from '../open-job.ts';
import { changeJob } from '../save/change-job.ts';
import type { Shell } from '../shell.ts';
import {
  type ChangeFlags,
  nowIn,
  readingFor,
  refuse,
  refused,
  refuseFile,
  sheetOf,
  styleFor,
  tellUnrecorded,
} from './changing.ts';

/** What `add` is called with. */
export interface AddFlags extends ChangeFlags {
  readonly at?: string;
  readonly id?: string;
  readonly last?: boolean;
  readonly note?: string;
  readonly all?: boolean;
}

/** What was typed, and what of it has no name or no value. */
interface TypedWords {
  readonly assignments: readonly Assignment[];
  readonly faults: readonly TypedFault[];
}

/** The words, with JSON from standard input where a dash stands; null where that is no JSON, which is told. */
const assignmentsOf = async (
  words: readonly string[],
  file: string,
  flags: AddFlags,
  shell: Shell,
): Promise<TypedWords | null> => {
  const faults: TypedFault[] = [];
  const assignments: Assignment[] = [];
  for (const word of words) {
    if (word === '-') {
      const bytes = await shell.io.readStdin();
      const decoded = decode(bytes);
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

const counted = (count: number, one: string, many = `${one}s`): string[] =>
  count === 0 ? [] : [`${count} ${count === 1 ? one : many}`];

/** `snapshot key-on (9 readings, lamp, 2 codes)`, for the record of changes. */
export const titleOf = ({ id, parts }: Pick<PlannedSnapshot, 'id' | 'parts'>): string => {
  const of = (kind: string): number => parts.filter(({ name }) => name.kind === kind).length;
  const codes = parts.filter(({ name, value }) => name.kind === 'codes' && value.kind !== 'list').length;
  const held = [
    ...counted(of('reading'), 'reading'),
    ...(of('lamp') > 0 ? ['lamp'] : []),
    ...counted(codes, 'code'),
    ...(of('codes') > codes ? ['no codes'] : []),
  ];
  return held.length > 0 ? `snapshot ${id} (${held.join(', ')})` : `snapshot ${id}`;
};

/** `floor level, air 8 °C`. */
const repeatedText = (pairs: readonly Pair[]): string =>
  pairs.map(([key, value]) => `${key} ${'text' in value ? value.text : ''}`).join(', ');

const report = (
  file: string,
  planned: PlannedSnapshot,
  before: OpenJob,
  after: OpenJob,
  flags: AddFlags,
  shell: Shell,
): string => {
  const style = styleFor(flags, after.found.shop, shell);
  const zone = after.read.job?.zone ?? 'UTC';
  const now = nowIn(zone, flags, shell);
  const written = writtenText(
    `${file}: ${titleOf(planned)}, ${planned.at.text.replace('T', ' ')}, written`,
    [
      ...(planned.repeated
        ? [
            [
              'conditions',
              `of ${planned.repeated.from} repeated: ${repeatedText(planned.repeated.pairs)}`,
            ] as const,
          ]
        : []),
      ...planned.parts.map(({ name, echo }) => [keyOfName(name), echo] as const),
    ],
    style,
  );
  const sheet = sheetOf(after, now);
  if (sheet === null) return `${written}\n`;
  const old = sheetOf(before, now) ?? sheet;
  return `${[written, snapshotFindings(sheet, planned.id, style), changesList(old, sheet, style), footer(style)].join('\n\n')}\n`;
};

/** Readings that nobody would believe, asked about where somebody sits; null where that ended it, which was told. */
const withoutDoubts = async (
  file: string,
  words: TypedWords,
  flags: AddFlags,
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

/** `cornerwise add`: one snapshot from one line. */
export const add = async (
  file: string,
  state: string,
  words: readonly string[],
  flags: AddFlags,
  shell: Shell,
): Promise<void> => {
  const read = await assignmentsOf(words, file, flags, shell);
  const typed = read && (await withoutDoubts(file, read, flags, shell));
  if (typed === null) return;
  let planned: PlannedSnapshot | null = null;
  const outcome = await changeJob(
    file,
    (opened) => {
      const zone = opened.read.job?.zone ?? 'UTC';
      const { at, id, note } = flags;
      const request: SnapshotRequest = {
        state,
        assignments: typed.assignments,
        last: flags.last ?? false,
        now: nowIn(zone, flags, shell),
        toMinute: flags.asOf !== undefined,
        ...(at === undefined ? {} : { at }),
        ...(id === undefined ? {} : { id }),
        ...(note === undefined ? {} : { note }),
      };
      const plan = planSnapshot(opened, request);
      const faults = [...typed.faults, ...('faults' in plan ? plan.faults : [])];
      if ('faults' in plan || faults.length > 0) return { troubles: faults };
      planned = plan;
      return { change: plan.change, what: titleOf(plan) };
    },
    readingFor(flags, shell),
  );
  if (refused(outcome, file, flags, shell) || planned === null) return;
  tellUnrecorded(outcome.onRecord, shell);
  if (!flags.quiet) shell.io.stdout.write(report(file, planned, outcome.before, outcome.after, flags, shell));
};
