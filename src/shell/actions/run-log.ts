import type { Instant } from '../../core/job.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import { outcomesOf, outcomesText } from '../../input/typed/typed-log.ts';
import { afterChange } from '../../report/entry/after.ts';
import { heldText, unsafeLines } from '../../report/entry/held.ts';
import { writtenText } from '../../report/entry/written.ts';
import { wrap } from '../../report/sheet/grid.ts';
import { reasonLines } from '../../report/sheet/hold-points.ts';
import type { Style } from '../../report/style.ts';
import { askForLog } from '../entry/ask-log.ts';
import { type Held, heldIn, isAgainst, needless } from '../entry/held-log.ts';
import { type LogRequest, type PlannedLog, planLog } from '../entry/plan-log.ts';
import { type OpenJob, openJobFile } from '../open-job.ts';
import { changeJob, type Reading } from '../save/change-job.ts';
import { exitCodes, type Shell } from '../shell.ts';
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
  readonly amount?: string;
  readonly despite?: string;
  readonly all?: boolean;
}

/** The same once it is known what a test found. */
type Told = Omit<LogFlags, 'found'> & { readonly found?: string };

/** `replaced sensor.LR, linkage.LR`. */
const titleOf = ({ did, what }: PlannedLog): string =>
  [did, what.join(', ')].filter((part) => part !== '').join(' ');

/** What speaks against the order of a part that is too cheap to be held back. */
const reminderOf = ({ did }: PlannedLog, { holdPoints, job }: BriefWorksheet): string[] => {
  const point = did === 'ordered' ? holdPoints.find(({ id }) => id === 'order-part') : undefined;
  return point && !point.clear
    ? [
        `"${point.title}" is not clear, which does not hold so cheap a part: ${reasonLines(point.reasons, job.zone, true).join('; ')}`,
      ]
    : [];
};

/** What somebody may have forgotten beside the entry. */
const remarks = (planned: PlannedLog, { read }: OpenJob, sheet: BriefWorksheet, style: Style): string[] => {
  const { did, what, found } = planned;
  const outcomes = found === null ? outcomesOf(did, what, read.prepared.packs) : null;
  const open = outcomes === null ? [] : [`No outcome was given; it can be ${outcomesText(outcomes)}.`];
  return [...open, ...reminderOf(planned, sheet)].map((line) =>
    wrap(style.text(line), style.options.width).join('\n'),
  );
};

/** What stays unsafe where a job ends without a repair; null where nothing does. */
const leftUnsafe = ({ did, entries }: PlannedLog, sheet: BriefWorksheet, style: Style): string | null =>
  did === 'closed' && entries[0]?.closing !== 'repaired' ? unsafeLines(sheet, style) : null;

const report = (
  file: string,
  planned: PlannedLog,
  before: OpenJob,
  after: OpenJob,
  flags: Told,
  shell: Shell,
): string => {
  const style = styleFor(flags, after.found.shop, shell);
  const said = (
    ['found', 'result', 'for', 'to', 'reason', 'amount', 'despite', 'by', 'note'] as const
  ).flatMap((key) => {
    const value = key === 'found' ? planned.found : flags[key];
    return value === undefined || value === null ? [] : [[key, value] as const];
  });
  const head = `${file}: ${titleOf(planned)}, ${planned.at.text.replace('T', ' ')}, written`;
  const written = writtenText(head, said, style);
  const now = nowIn(after.read.job?.zone ?? 'UTC', flags, shell);
  const sheet = sheetOf(after, now);
  if (sheet === null) return `${written}\n`;
  const unsafe = leftUnsafe(planned, sheet, style);
  return afterChange(
    [written, ...remarks(planned, after, sheet, style), ...(unsafe === null ? [] : [unsafe])],
    sheetOf(before, now),
    sheet,
    file,
    style,
  );
};

/** What the entry leaves open, asked for where somebody sits at a terminal; null where that ended it, which was told. */
const completed = async (
  file: string,
  did: string,
  what: readonly string[],
  flags: LogFlags,
  reading: Reading,
  shell: Shell,
): Promise<{ readonly what: readonly string[]; readonly found: string | undefined } | null> => {
  const { found } = flags;
  const { isInteractive } = shell.io;
  if (!isInteractive && found !== true) return { what, found };
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

/** What was typed, without the options that were not given. */
const requestOf = (did: string, what: readonly string[], flags: Told, now: Instant): LogRequest => {
  const { at, found, result, for: waitsFor, to, reason, by, note, amount, despite } = flags;
  const told = { at, found, result, waitsFor, to, reason, by, note, amount, despite };
  const given = Object.entries(told).filter(([, value]) => value !== undefined);
  return { did, what, now, toMinute: flags.asOf !== undefined, ...Object.fromEntries(given) };
};

/** An entry that its hold point does not allow: told on standard error, exit code 1, nothing written. */
const refuseHeld = (file: string, { planned, point, sheet }: Held, flags: Told, shell: Shell): void => {
  shell.io.stderr.write(heldText(file, titleOf(planned), point, sheet, styleFor(flags, null, shell)));
  shell.finish(exitCodes.found);
};

/** `cornerwise log`: work, tests and what else happened. */
export const log = async (
  file: string,
  did: string,
  what: readonly string[],
  given: LogFlags,
  shell: Shell,
): Promise<void> => {
  const reading = readingFor(given, shell);
  const asked = await completed(file, did, what, given, reading, shell);
  if (asked === null) return;
  const { found: _, ...rest } = given;
  const flags: Told = asked.found === undefined ? rest : { ...rest, found: asked.found };
  let planned: PlannedLog | null = null;
  let held: Held | null = null;
  const outcome = await changeJob(
    file,
    (opened) => {
      const request = requestOf(did, asked.what, flags, nowIn(opened.read.job?.zone ?? 'UTC', flags, shell));
      const plan = planLog(opened, request);
      if ('faults' in plan) return { troubles: plan.faults };
      held = heldIn(opened, plan, flags.despite !== undefined);
      if (held !== null) return { troubles: [] };
      if (flags.despite !== undefined && !isAgainst(opened, plan)) return { troubles: [needless] };
      planned = plan;
      return { change: plan.change, what: titleOf(plan) };
    },
    { ...reading, by: 'log' },
  );
  if (held !== null) {
    refuseHeld(file, held, flags, shell);
    return;
  }
  if (refused(outcome, file, flags, shell) || planned === null) return;
  tellUnrecorded(outcome.onRecord, shell);
  if (!flags.quiet) shell.io.stdout.write(report(file, planned, outcome.before, outcome.after, flags, shell));
};
