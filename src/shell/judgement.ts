import { layouts } from '../core/job.ts';
import { type FailLevel, fails } from '../core/level.ts';
import type { Format } from '../report/formats.ts';
import { renderProblems } from '../report/problems.ts';
import { renderers } from '../report/renderers.ts';
import { makeStyle } from '../report/style.ts';
import { type AsOf, asOfTyped } from './as-of.ts';
import { hasFault } from './guarded.ts';
import type { Io } from './io.ts';
import { type Judged, judgeFile } from './judge-file.ts';
import { libraryCache } from './library-cache.ts';
import { type LookFlags, reportOptions } from './look.ts';
import { exitCodes, type Shell } from './shell.ts';

/** What a call of `check` asks for. */
export interface CheckFlags extends LookFlags {
  readonly format: Format;
  readonly asOf?: string;
  readonly rules: readonly string[];
  readonly failOn?: FailLevel;
  readonly quiet?: boolean;
  /** Ids of two snapshots to put side by side. */
  readonly compare?: readonly string[];
}

/** The exit code that the files of a call come to. */
export const exitCode = ({ judged }: Pick<Judgement, 'judged'>, flag: FailLevel | undefined) => {
  if (judged.some(({ problems }) => problems !== null && hasFault(problems))) return exitCodes.fault;
  if (judged.some(({ sheet }) => sheet === null)) return exitCodes.wrongInput;
  const found = judged.some(
    ({ sheet, shop }) => sheet && fails(sheet.findings, flag ?? shop?.failOn ?? 'hold'),
  );
  return found ? exitCodes.found : exitCodes.clear;
};

/** The files of a call, judged at one moment. */
export interface Judgement {
  readonly judged: readonly Judged[];
  readonly now: number;
  readonly asOf: AsOf;
  /** The zone of the first job that could be read. */
  readonly zone: string;
}

/** Judges files, each at the instant asked for, or all at now. */
export const judgeAll = async (files: readonly string[], flags: CheckFlags, io: Io): Promise<Judgement> => {
  const now = io.now();
  const asOf: AsOf = asOfTyped(flags.asOf) ?? (() => now);
  const libraries = libraryCache(files.length > 1 ? layouts : []);
  const [before, after] = flags.compare ?? [];
  const compare = before !== undefined && after !== undefined ? ([before, after] as const) : undefined;
  const judged: Judged[] = [];
  for (const file of files) {
    judged.push(await judgeFile(file, { asOf, rules: flags.rules, compare }, io, libraries));
  }
  const zone = judged.find(({ sheet }) => sheet !== null)?.sheet?.job.zone ?? 'UTC';
  return { judged, now, asOf, zone };
};

/** Prints a judgement in the format asked for. */
export const print = (
  { judged, now, asOf, zone }: Judgement,
  flags: CheckFlags,
  { io, version }: Shell,
): void => {
  const results = judged.map((one) => ({ ...one, options: reportOptions(flags, one.shop, io) }));
  if (!flags.quiet) io.stdout.write(renderers[flags.format]({ results, asOf: asOf(zone) ?? now, version }));
  // Machine output carries its problems itself, unless it is not printed at all.
  if (flags.format === 'table' || flags.quiet) {
    for (const { file, problems, options } of results) {
      if (problems) io.stderr.write(renderProblems(file, problems, makeStyle(options)));
    }
  }
};
