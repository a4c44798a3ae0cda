import { dirname, resolve } from 'node:path';
import type { FailLevel } from '../../core/level.ts';
import { packNotices } from '../../core/sweep/pack-notices.ts';
import { isJudged, type Row } from '../../core/sweep/row.ts';
import type { Problem } from '../../input/problem.ts';
import type { LeftOut, SweepRendering } from '../../report/sweep/rendering.ts';
import { asOfTyped } from '../as-of.ts';
import { buildId } from '../build-id.ts';
import { exists } from '../disk/on-disk.ts';
import type { WatchTools } from '../disk/watch-tools.ts';
import { type LookFlags, reportOptions } from '../look.ts';
import type { ExitCode, Shell } from '../shell.ts';
import { cacheFolder } from './cache.ts';
import { type Differences, differencesFrom } from './differences.ts';
import type { EarlierSweep } from './earlier.ts';
import type { FileResult, SweepSettings } from './file-judge.ts';
import { fileTally } from './file-tally.ts';
import type { Filters } from './filters.ts';
import type { FoundJobs } from './find-jobs.ts';
import { judgeFiles } from './judge-files.ts';
import { progress } from './progress.ts';
import { makeRows, type Rows } from './rows.ts';
import { fallsTo, type Shard } from './shard.ts';
import { type SweepInputs, sweepInputsOf } from './sweep-inputs.ts';

/** What a sweep is asked for, but for where it is to be printed. */
export interface SweepRequest extends FoundJobs {
  readonly rules: readonly string[];
  readonly asOf: string | null;
  readonly failOn: FailLevel | null;
  readonly filters: Filters;
  readonly withinDays: number;
  readonly shard: Shard | null;
  readonly cache: boolean;
  /** Whether a file that cannot be judged makes the sweep one that cannot be trusted. */
  readonly strict: boolean;
  readonly earlier: EarlierSweep | null;
}

/** A sweep that was run, or stopped on its way. */
export interface Swept {
  /** What an output is made of; `changed` leaves out what did not change. */
  readonly rendering: (
    order: 'worst-first' | 'by-file',
    which: 'all' | 'wanted' | 'changed',
    look: LookFlags,
  ) => SweepRendering;
  readonly exitCode: ExitCode;
  /** Whether every job was met, so that the next night may be compared with this one. */
  readonly isTrusted: boolean;
  readonly stopped: { readonly done: number; readonly of: number } | null;
}

/** The zone of the first job that was judged, whichever came first. */
const firstZone = (rows: Rows): string => {
  for (const index of rows.inOrder()) {
    const row = rows.get(index);
    if (row && isJudged(row)) return row.zone;
  }
  return 'UTC';
};

/** What is wrong with what many jobs are judged by, each mistake once. */
const wrongInputs = (inputsOf: ReadonlyMap<string, SweepInputs>): readonly Problem[] => {
  const problems = [...inputsOf.values()].flatMap((inputs) => inputs.problems);
  return [...new Map(problems.map((problem) => [JSON.stringify(problem), problem])).values()];
};

/**
 * Runs a sweep to its end, or until it is stopped. Where what the jobs are judged by is wrong, no job is judged: one
 * mistake is one problem, and not one for each job.
 */
export const sweepJobs = async (
  request: SweepRequest,
  { io, version }: Shell,
  tools: Pick<WatchTools, 'onStop'>,
): Promise<Swept | { readonly problems: readonly Problem[] }> => {
  const { named, shard, filters, withinDays, earlier } = request;
  const files = shard === null ? request.files : request.files.filter((file) => fallsTo(shard, file));
  const now = io.now();
  const settings: SweepSettings = {
    cwd: io.cwd,
    rules: request.rules,
    now,
    asOf: request.asOf,
    failOn: request.failOn,
    closed: filters.states?.includes('closed') ?? false,
    cacheFolder: request.cache ? cacheFolder(io) : null,
    program: `${version} ${buildId}`,
    io,
  };
  const { cwd, rules, failOn, program } = settings;
  const folders = new Set(files.map((name) => dirname(resolve(cwd, name))));
  const inputsOf = await sweepInputsOf(folders, { rules, failOn, program, io });
  const wrong = wrongInputs(inputsOf);
  if (wrong.length > 0) return { problems: wrong };
  const rows = makeRows(files, withinDays);
  const tally = fileTally(files, rows, filters);
  const shown = progress(files.length, io);
  const done = (index: number, result: FileResult): void => {
    tally.add(index, result);
    shown.at(tally.done());
  };
  let stopping = false;
  const forget = tools.onStop(() => {
    stopping = true;
  });
  try {
    await judgeFiles({ files, named, settings, inputsOf, done, stopped: () => stopping });
  } finally {
    forget();
    shown.end();
  }

  const judged = tally.done();
  const zone = firstZone(rows);
  const stopped = stopping && judged < files.length ? { done: judged, of: files.length } : null;
  const concerns = (file: string): boolean => shard === null || fallsTo(shard, file);
  const differences =
    earlier &&
    differencesFrom(
      {
        ...{ files, rows, without: tally.without, concerns, stopped: stopped !== null },
        exists: (file) => exists(resolve(io.cwd, file)),
      },
      earlier,
    );
  if (differences) tally.addChanges(differences);
  const totals = tally.totals.totals();
  const at = asOfTyped(request.asOf ?? undefined)?.(zone) ?? now;
  const notices = packNotices(
    (function* () {
      for (const index of rows.inOrder()) {
        const row = rows.get(index);
        if (row) yield [row, differences?.packsOf(index) ?? null] as const;
      }
    })(),
  );
  const isChanged = (index: number): boolean => differences?.of(index)?.kind !== 'unchanged';

  return {
    stopped,
    exitCode: tally.exitCode(stopped !== null, request),
    isTrusted: request.refused.length === 0,
    rendering: (order, which, look) => {
      const chosen = (index: number): boolean =>
        which === 'all' || (tally.isWanted(index) && (which === 'wanted' || isChanged(index)));
      const printed = function* (): Generator<Row> {
        for (const index of order === 'worst-first' ? rows.worstFirst() : rows.inOrder()) {
          const row = chosen(index) ? rows.get(index) : null;
          if (row) yield withBefore(row, differences, index);
        }
      };
      const leftOut: LeftOut = {
        ...tally.leftOut,
        unchanged: which === 'changed' ? totals.changes.unchanged : 0,
      };
      const own = reportOptions(look, null, io);
      return {
        rows: { [Symbol.iterator]: printed },
        gone: differences?.gone ?? [],
        totals,
        notices,
        leftOut,
        asOf: at,
        zone,
        withinDays,
        stopped,
        compared: differences !== null,
        version,
        options: { ...own, width: Math.max(own.width, leastWidth) },
      };
    },
  };
};

/** Columns that the rows of a sweep need at least. */
const leastWidth = 80;

/** A row with what changed since the earlier night; one that cannot be judged keeps the last that could be. */
const withBefore = (row: Row, differences: Differences | null, index: number): Row => {
  if (differences === null) return row;
  const change = differences.of(index);
  return isJudged(row) ? { ...row, change } : { ...row, change, last: differences.lastOf(index) };
};
