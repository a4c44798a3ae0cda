import type { Instant } from '../../core/job.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import { outcomesOf, outcomesText, typedVerb, typedWhat } from '../../input/typed/typed-log.ts';
import { changesList } from '../../report/entry/changes-list.ts';
import { heldText, unsafeLines } from '../../report/entry/held.ts';
import { writtenText } from '../../report/entry/written.ts';
import { nowLines } from '../../report/now/now-lines.ts';
import { wrap } from '../../report/sheet/grid.ts';
import { reasonLines } from '../../report/sheet/hold-points.ts';
import { footer } from '../../report/sheet/sheet.ts';
import type { Style } from '../../report/style.ts';
import { type Held, heldIn, isAgainst, needless } from '../entry/held-log.ts';
import { type LogRequest, type PlannedLog, planLog } from '../entry/plan-log.ts';
import { type OpenJob, openJobFile } from '../open-job.ts';
import { changeJob } from '../save/change-job.ts';
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
  return `${[written, ...remarks(planned, after, sheet, style), ...(unsafe === null ? [] : [unsafe]), changesList(sheetOf(before, now) ?? sheet, sheet, style), nowLines(sheet, file, style), footer(style)].join('\n\n')}\n`;
};

/**
 * What a test found, asked for on a terminal where nobody said it; null with the choice told where nobody can be
 * asked and `--found` stands without a word.
 */
const foundFor = async (
  file: string,
  did: string,
  what: readonly string[],
  flags: LogFlags,
  shell: Shell,
): Promise<{ readonly found: string | undefined } | null> => {
  const { found } = flags;
  const verb = typedVerb(did);
  const finds = verb.ok && (verb.value === 'tested' || verb.value === 'inspected');
  if (typeof found === 'string' || (found === undefined && !finds)) return { found };
  const opened = await openJobFile(file, flags.rules, shell.io, readingFor(flags, shell).libraries);
  const packs = 'read' in opened ? opened.read.prepared.packs : [];
  const names = verb.ok ? what.map((one) => typedWhat(one, verb.value, packs)) : [];
  const named = names.flatMap((one) => (one.ok ? [one.value] : []));
  const outcomes = verb.ok ? outcomesOf(verb.value, named, packs) : null;
  if (outcomes !== null && shell.io.isInteractive) {
    const prompter = shell.io.openPrompter();
    try {
      const style = styleFor(flags, null, shell);
      const choice = outcomes.map(({ id, title }) => style.text(`  ${id}: ${title}\n`)).join('');
      const answer = await prompter.ask(`${choice}found (Enter if it is not known): `);
      if (answer === null) {
        refuse([{ message: 'stopped; nothing was written', hint: null }], flags, shell);
        return null;
      }
      return { found: answer.trim() || undefined };
    } finally {
      prompter.close();
    }
  }
  if (found === undefined) return { found };
  const hint = outcomes === null ? 'write it in a word or two' : `it can be ${outcomesText(outcomes)}`;
  refuse([{ typed: '--found', message: 'there is no word after it', hint }], flags, shell);
  return null;
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
  const asked = await foundFor(file, did, what, given, shell);
  if (asked === null) return;
  const { found: _, ...rest } = given;
  const flags: Told = asked.found === undefined ? rest : { ...rest, found: asked.found };
  let planned: PlannedLog | null = null;
  let held: Held | null = null;
  const outcome = await changeJob(
    file,
    (opened) => {
      const request = requestOf(did, what, flags, nowIn(opened.read.job?.zone ?? 'UTC', flags, shell));
      const plan = planLog(opened, request);
      if ('faults' in plan) return { troubles: plan.faults };
      held = heldIn(opened, plan, flags.despite !== undefined);
      if (held !== null) return { troubles: [] };
      if (flags.despite !== undefined && !isAgainst(opened, plan)) return { troubles: [needless] };
      planned = plan;
      return { change: plan.change, what: titleOf(plan) };
    },
    readingFor(flags, shell),
  );
  if (held !== null) {
    refuseHeld(file, held, flags, shell);
    return;
  }
  if (refused(outcome, file, flags, shell) || planned === null) return;
  tellUnrecorded(outcome.onRecord, shell);
  if (!flags.quiet) shell.io.stdout.write(report(file, planned, outcome.before, outcome.after, flags, shell));
};
