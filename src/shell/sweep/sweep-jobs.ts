import { resolve } from 'node:path';
import type { FailLevel } from '../../core/level.ts';
import { isJudged, type Row } from '../../core/sweep/row.ts';
import type { LeftOut, SweepRendering } from '../../report/sweep/rendering.ts';
import { asOfTyped } from '../as-of.ts';
import { buildId } from '../build-id.ts';
import { type LookFlags, reportOptions } from '../look.ts';
import { exists } from '../on-disk.ts';
import type { ExitCode, Shell } from '../shell.ts';
import type { WatchTools } from '../watch-tools.ts';
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

/** What a sweep is asked for, but for where it is to be printed. */
export interface SweepRequest extends FoundJobs {
  readonly rules: readonly string[];
  readonly asOf: string | null;
  readonly failOn: FailLevel | null;
  readonly filters: Filters;
  readonly withinDays: number;
  readonly shard: Shard | null;
  readonly cache: boolean;
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

/** Runs a sweep to its end, or until it is stopped. */
export const sweepJobs = async (
  request: SweepRequest,
  { io, version }: Shell,
  tools: Pick<WatchTools, 'onStop'>,
): Promise<Swept> => {
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
    await judgeFiles({ files, named, settings, done, stopped: () => stopping }, io);
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
  const isChanged = (index: number): boolean => differences?.of(index)?.kind !== 'unchanged';

  return {
    stopped,
    exitCode: tally.exitCode(stopped !== null),
    rendering: (order, which, look) => {
      const chosen = (index: number): boolean =>
        which === 'all' || (tally.isWanted(index) && (which === 'wanted' || isChanged(index)));
      const printed = function* (): Generator<Row> {
        for (const index of order === 'worst-first' ? rows.worstFirst() : rows.inOrder()) {
          const row = chosen(index) ? rows.get(index) : null;
          if (row) yield withChange(row, differences, index);
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

const withChange = (row: Row, differences: Differences | null, index: number): Row =>
  differences === null ? row : { ...row, change: differences.of(index) };
