import { assessBriefly } from '../../core/assess.ts';
import type { Instant } from '../../core/job.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import type { Shop } from '../../input/job/shop.ts';
import type { Problem } from '../../input/problem.ts';
import { renderProblems } from '../../report/problems.ts';
import { makeStyle, type Style } from '../../report/style.ts';
import { type Fault, renderFaults } from '../../report/words/fault-words.ts';
import { asOfTyped } from '../as-of.ts';
import { assessAt } from '../judge-file.ts';
import { libraryCache } from '../library-cache.ts';
import { type LookFlags, reportOptions } from '../look.ts';
import type { OpenJob } from '../open-job.ts';
import type { Outcome, Reading } from '../save/change-job.ts';
import { exitCodes, type Shell } from '../shell.ts';
import { withShownPaths } from '../shown-path.ts';

/** What every command that writes to a job file understands. */
export interface ChangeFlags extends LookFlags {
  readonly asOf?: string;
  readonly rules: readonly string[];
  readonly quiet?: boolean;
}

export const readingFor = (flags: ChangeFlags, { io }: Shell): Reading => ({
  rules: flags.rules,
  io,
  libraries: libraryCache(),
  asOf: asOfTyped(flags.asOf) ?? null,
});

/** What counts as now for a job: `--as-of` in the job's zone, else the clock. */
export const nowIn = (zone: string, flags: ChangeFlags, { io }: Shell): Instant =>
  asOfTyped(flags.asOf)?.(zone) ?? io.now();

export const styleFor = (flags: ChangeFlags, shop: Shop | null, { io }: Shell): Style =>
  makeStyle(reportOptions(flags, shop, io));

/** Faults of the call: told on standard error, exit code 2, nothing written. */
export const refuse = (faults: readonly Fault[], flags: ChangeFlags, shell: Shell): void => {
  shell.io.stderr.write(renderFaults(faults, styleFor(flags, null, shell)));
  shell.finish(exitCodes.wrongInput);
};

/** Problems of a job file, told as `check` tells them. */
export const refuseFile = (
  file: string,
  problems: readonly Problem[],
  shop: Shop | null,
  flags: ChangeFlags,
  shell: Shell,
  last = 'Nothing was written.',
): void => {
  const style = styleFor(flags, shop, shell);
  shell.io.stderr.write(renderProblems(file, withShownPaths(problems, shell.io.cwd), style));
  shell.io.stderr.write(`\n${style.text(last)}\n`);
  shell.finish(exitCodes.wrongInput);
};

/** What was not changed and why; true where there is nothing more to say. */
export const refused = (
  outcome: Outcome,
  file: string,
  flags: ChangeFlags,
  shell: Shell,
  last?: string,
): outcome is Exclude<Outcome, { kind: 'changed' }> => {
  if (outcome.kind === 'changed') return false;
  if (outcome.kind === 'trouble') {
    refuse(outcome.troubles, flags, shell);
    if (outcome.isFault) shell.finish(exitCodes.fault);
  } else refuseFile(file, outcome.problems, outcome.shop, flags, shell, last);
  return true;
};

/** Said where `undo` will not know of what was written. */
export const tellUnrecorded = (onRecord: boolean, { io }: Shell): void => {
  if (!onRecord)
    io.stderr.write('cornerwise: this cannot be put on record, so that undo will not know of it\n');
};

/**
 * The sheet of a job at an instant; null where no check concerns it, so that nothing can be said.
 *
 * @param superseded false to leave out what newer readings of the same state supersede: in a long job that is most of it
 */
export const sheetOf = (
  { read }: Pick<OpenJob, 'read'>,
  now: Instant,
  superseded = true,
): BriefWorksheet | null => {
  const sheet = assessAt(
    read,
    () => now,
    (...given) => assessBriefly(...given, { superseded }),
  );
  return 'code' in sheet ? null : sheet;
};
