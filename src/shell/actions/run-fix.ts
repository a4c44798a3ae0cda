import type { Assignment } from '../../input/typed/assignment.ts';
import type { TypedFault } from '../../input/typed/typed.ts';
import { keyOfName } from '../../input/typed/typed-snapshot.ts';
import { afterChange } from '../../report/entry/after.ts';
import { snapshotFindings } from '../../report/entry/snapshot.ts';
import { writtenText } from '../../report/entry/written.ts';
import { type PlannedFix, planFix } from '../entry/plan-fix.ts';
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

/** What `fix` is called with. */
export interface FixFlags extends ChangeFlags {
  readonly all?: boolean;
}

/** `fix as-found (battery, floor)`, for the record of changes. */
const titleOf = ({ id, fixed }: PlannedFix): string =>
  `fix ${id} (${fixed.map(({ part }) => keyOfName(part.name)).join(', ')})`;

const report = (
  file: string,
  planned: PlannedFix,
  before: OpenJob,
  after: OpenJob,
  flags: FixFlags,
  shell: Shell,
): string => {
  const style = styleFor(flags, after.found.shop, shell);
  const now = nowIn(after.read.job?.zone ?? 'UTC', flags, shell);
  const said = planned.fixed.map(
    ({ part, was }) =>
      [keyOfName(part.name), `${part.echo}${was === null ? ' (added)' : ` (was ${was})`}`] as const,
  );
  const written = writtenText(`${file}: ${planned.id}, put right`, said, style);
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

/** `cornerwise fix`: a reading that was typed wrongly, or a condition that was forgotten. */
export const fix = async (
  file: string,
  snapshot: string,
  words: readonly string[],
  flags: FixFlags,
  shell: Shell,
): Promise<void> => {
  const read = await assignmentsOf(words, `${file} ${snapshot}`, flags, shell);
  const typed = read && (await withoutDoubts(file, read, flags, shell));
  if (typed === null) return;
  const assignments: readonly Assignment[] = typed.assignments;
  const wrong: readonly TypedFault[] = typed.faults;
  let planned: PlannedFix | null = null;
  const outcome = await changeJob(
    file,
    (opened) => {
      const now = nowIn(opened.read.job?.zone ?? 'UTC', flags, shell);
      const plan = planFix(opened, { snapshot, assignments, now });
      const faults = [...wrong, ...('faults' in plan ? plan.faults : [])];
      if ('faults' in plan || faults.length > 0) return { troubles: faults };
      planned = plan;
      return { change: plan.change, what: titleOf(plan) };
    },
    { ...readingFor(flags, shell), by: 'fix' },
  );
  if (refused(outcome, file, flags, shell) || planned === null) return;
  tellUnrecorded(outcome.onRecord, shell);
  if (!flags.quiet) shell.io.stdout.write(report(file, planned, outcome.before, outcome.after, flags, shell));
};
