import { afterChange } from '../../report/entry/after.ts';
import { verdictLines } from '../../report/entry/verdicts.ts';
import { writtenText } from '../../report/entry/written.ts';
import { type PlannedWaiver, planWaiver, type WaiveRequest } from '../entry/plan-waive.ts';
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

/** What `waive` is called with. */
export interface WaiveFlags extends ChangeFlags {
  readonly reason?: string;
  readonly by?: string;
  readonly until?: string;
  readonly all?: boolean;
}

const report = (
  file: string,
  planned: PlannedWaiver,
  after: OpenJob,
  flags: WaiveFlags,
  shell: Shell,
): string => {
  const style = styleFor(flags, after.found.shop, shell);
  const now = nowIn(after.read.job?.zone ?? 'UTC', flags, shell);
  const words = (['reason', 'by'] as const).map((key) => [key, flags[key] ?? ''] as const);
  const head = `${file}: ${planned.finding} accepted until the end of ${planned.until}, written`;
  const written = writtenText(head, words, style);
  const sheet = sheetOf(after, now);
  if (sheet === null) return `${written}\n`;
  const accepted = sheet.findings.filter(
    ({ newest, waived }) => newest && waived?.finding === planned.finding,
  );
  const findings = verdictLines(null, accepted, style).trimEnd();
  const said = findings === '' ? written : `${written}\n${findings}`;
  return afterChange([said], planned.sheet, sheet, file, style);
};

/** `cornerwise waive`: accepts a finding for a time. */
export const waive = async (
  file: string,
  finding: string,
  flags: WaiveFlags,
  shell: Shell,
): Promise<void> => {
  let planned: PlannedWaiver | null = null;
  const outcome = await changeJob(
    file,
    (opened) => {
      const now = nowIn(opened.read.job?.zone ?? 'UTC', flags, shell);
      const sheet = sheetOf(opened, now);
      if (sheet === null) {
        const message = 'no check of this job concerns this vehicle, so there is nothing to accept';
        return { troubles: [{ message, hint: 'check layout and packs' }] };
      }
      const { reason, by, until } = flags;
      const request: WaiveRequest = {
        finding,
        now,
        ...(reason === undefined ? {} : { reason }),
        ...(by === undefined ? {} : { by }),
        ...(until === undefined ? {} : { until }),
      };
      const plan = planWaiver(sheet, request);
      if ('faults' in plan) return { troubles: plan.faults };
      planned = plan;
      return { change: plan.change, what: `waiver of ${plan.finding}` };
    },
    { ...readingFor(flags, shell), by: 'waive' },
  );
  if (refused(outcome, file, flags, shell) || planned === null) return;
  tellUnrecorded(outcome.onRecord, shell);
  if (!flags.quiet) shell.io.stdout.write(report(file, planned, outcome.after, flags, shell));
};
