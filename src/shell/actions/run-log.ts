import { outcomesOf, outcomesText } from '../../input/typed/typed-log.ts';
import { changesList } from '../../report/entry/changes-list.ts';
import { writtenText } from '../../report/entry/written.ts';
import { wrap } from '../../report/sheet/grid.ts';
import { footer } from '../../report/sheet/sheet.ts';
import type { Style } from '../../report/style.ts';
import { askForLog } from '../entry/ask-log.ts';
import { type LogRequest, type PlannedLog, planLog } from '../entry/plan-log.ts';
import { type OpenJob, openJobFile } from '../open-job.ts';
import { changeJob } from '../save/change-job.ts';
import type { Shell } from '../shell.ts';
import {
  type ChangeFlags,
  nowIn,
  readingFor,
  refuse,
  refused,
  sheetOf,
  styleFor,
  tellUnrecorded,
} from './changing.ts';

/** What `log` is called with. */
export interface LogFlags extends ChangeFlags {
  readonly at?: string;
  /** True where the option was given without a word. */
  readonly found?: string | true;
  readonly result?: string;
  readonly for?: string;
  readonly to?: string;
  readonly reason?: string;
  readonly by?: string;
  readonly note?: string;
  readonly all?: boolean;
}

/** The same once it is known what a test found. */
type Told = Omit<LogFlags, 'found'> & { readonly found?: string };

/** `replaced sensor.LR, linkage.LR`. */
const titleOf = ({ did, what }: PlannedLog): string =>
  [did, what.join(', ')].filter((part) => part !== '').join(' ');

/** What somebody may have forgotten beside the entry. */
const remarks = (planned: PlannedLog, { read }: OpenJob, style: Style): string[] => {
  const { did, what, found } = planned;
  const outcomes = found === null ? outcomesOf(did, what, read.prepared.packs) : null;
  const open = outcomes === null ? [] : [`No outcome was given; it can be ${outcomesText(outcomes)}.`];
  const status = read.job?.status ?? 'closed';
  const stays =
    did === 'closed' && status !== 'closed'
      ? [`The file still says status: ${status}; change that in an editor.`]
      : [];
  return [...open, ...stays].map((line) => wrap(style.text(line), style.options.width).join('\n'));
};

const report = (
  file: string,
  planned: PlannedLog,
  before: OpenJob,
  after: OpenJob,
  flags: Told,
  shell: Shell,
): string => {
  const style = styleFor(flags, after.found.shop, shell);
  const said = (['found', 'result', 'for', 'to', 'reason', 'by', 'note'] as const).flatMap((key) => {
    const value = key === 'found' ? planned.found : flags[key];
    return value === undefined || value === null ? [] : [[key, value] as const];
  });
  const head = `${file}: ${titleOf(planned)}, ${planned.at.text.replace('T', ' ')}, written`;
  const written = writtenText(head, said, style);
  const now = nowIn(after.read.job?.zone ?? 'UTC', flags, shell);
  const sheet = sheetOf(after, now);
  if (sheet === null) return `${written}\n`;
  return `${[written, ...remarks(planned, after, style), changesList(sheetOf(before, now) ?? sheet, sheet, style), footer(style)].join('\n\n')}\n`;
};

/** What the entry leaves open, asked for where somebody sits at a terminal; null where that ended it, which was told. */
const completed = async (
  file: string,
  did: string,
  what: readonly string[],
  flags: LogFlags,
  shell: Shell,
): Promise<{ readonly what: readonly string[]; readonly found: string | undefined } | null> => {
  const { found } = flags;
  const { isInteractive } = shell.io;
  if (!isInteractive && found !== true) return { what, found };
  const reading = readingFor(flags, shell);
  const opened = await openJobFile(file, flags.rules, shell.io, reading.libraries, reading.asOf);
  // What is wrong with the file is told by whoever writes to it.
  if (!('read' in opened)) return { what, found: found === true ? undefined : found };
  const prompter = isInteractive ? shell.io.openPrompter() : null;
  try {
    const style = styleFor(flags, opened.found.shop, shell);
    const print = (text: string): void => shell.io.stdout.write(text);
    const asked = await askForLog(did, what, found, opened, prompter && { prompter, style, print });
    if (!('faults' in asked)) return asked;
    refuse(asked.faults, flags, shell);
    return null;
  } finally {
    prompter?.close();
  }
};

/** `cornerwise log`: work, tests and what else happened. */
export const log = async (
  file: string,
  did: string,
  what: readonly string[],
  given: LogFlags,
  shell: Shell,
): Promise<void> => {
  const asked = await completed(file, did, what, given, shell);
  if (asked === null) return;
  const { found: _, ...rest } = given;
  const flags: Told = asked.found === undefined ? rest : { ...rest, found: asked.found };
  let planned: PlannedLog | null = null;
  const outcome = await changeJob(
    file,
    (opened) => {
      const { at, found, result, to, reason, by, note } = flags;
      const request: LogRequest = {
        did,
        what: asked.what,
        now: nowIn(opened.read.job?.zone ?? 'UTC', flags, shell),
        toMinute: flags.asOf !== undefined,
        ...(at === undefined ? {} : { at }),
        ...(found === undefined ? {} : { found }),
        ...(result === undefined ? {} : { result }),
        ...(flags.for === undefined ? {} : { waitsFor: flags.for }),
        ...(to === undefined ? {} : { to }),
        ...(reason === undefined ? {} : { reason }),
        ...(by === undefined ? {} : { by }),
        ...(note === undefined ? {} : { note }),
      };
      const plan = planLog(opened, request);
      if ('faults' in plan) return { troubles: plan.faults };
      planned = plan;
      return { change: plan.change, what: titleOf(plan) };
    },
    readingFor(flags, shell),
  );
  if (refused(outcome, file, flags, shell) || planned === null) return;
  tellUnrecorded(outcome.onRecord, shell);
  if (!flags.quiet) shell.io.stdout.write(report(file, planned, outcome.before, outcome.after, flags, shell));
};
