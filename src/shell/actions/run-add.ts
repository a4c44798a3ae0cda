import type { Pair } from '../../input/edit/value.ts';
import { keyOfName } from '../../input/typed/typed-snapshot.ts';
import { afterChange } from '../../report/entry/after.ts';
import { snapshotFindings } from '../../report/entry/snapshot.ts';
import { writtenText } from '../../report/entry/written.ts';
import { type PlannedSnapshot, planSnapshot, type SnapshotRequest } from '../entry/plan-snapshot.ts';
import type { OpenJob } from '../open-job.ts';
import { changeJob } from '../save/change-job.ts';
import type { Shell } from '../shell.ts';
import {
  type ChangeFlags,
  nowIn,
  readingFor,
  refused,
  sheetOf,
  styleFor,
  tellUnrecorded,
} from './changing.ts';
import { assignmentsOf, withoutDoubts } from './typed-words.ts';

/** What `add` is called with. */
export interface AddFlags extends ChangeFlags {
  readonly at?: string;
  readonly id?: string;
  readonly last?: boolean;
  readonly note?: string;
  readonly all?: boolean;
}

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
  return afterChange(
    [written, snapshotFindings(sheet, planned.id, style)],
    sheetOf(before, now),
    sheet,
    file,
    style,
  );
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
    { ...readingFor(flags, shell), by: 'add' },
  );
  if (refused(outcome, file, flags, shell) || planned === null) return;
  tellUnrecorded(outcome.onRecord, shell);
  if (!flags.quiet) shell.io.stdout.write(report(file, planned, outcome.before, outcome.after, flags, shell));
};
