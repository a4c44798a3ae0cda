import { outcomesOf, outcomesText, typedVerb, typedWhat } from '../../input/typed/typed-log.ts';
import { changesList } from '../../report/entry/changes-list.ts';
import { writtenText } from '../../report/entry/written.ts';
import { nowLines } from '../../report/now/now-lines.ts';
import { wrap } from '../../report/sheet/grid.ts';
import { footer } from '../../report/sheet/sheet.ts';
import type { Style } from '../../report/style.ts';
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
  return `${[written, ...remarks(planned, after, style), changesList(sheetOf(before, now) ?? sheet, sheet, style), nowLines(sheet, file, style), footer(style)].join('\n\n')}\n`;
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
  const outcome = await changeJob(
    file,
    (opened) => {
      const { at, found, result, to, reason, by, note } = flags;
      const request: LogRequest = {
        did,
        what,
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
