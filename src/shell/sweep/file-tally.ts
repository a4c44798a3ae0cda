import type { Row } from '../../core/sweep/row.ts';
import { counter } from '../../core/sweep/totals.ts';
import { type ExitCode, exitCodes } from '../shell.ts';
import type { Differences } from './differences.ts';
import type { FileResult } from './file-judge.ts';
import { type Filters, wants } from './filters.ts';
import type { Rows } from './rows.ts';

/** What decides whether a sweep as a whole can be trusted. */
export interface Trust {
  /** Whether one file that cannot be judged is enough to trust none of it. */
  readonly strict: boolean;
  /** Folders that could not be read. */
  readonly refused: readonly string[];
}

/** Counts the results of files, and puts those with a row among the rows. Results may come in any order. */
export const fileTally = (files: readonly string[], rows: Rows, filters: Filters) => {
  const without = new Map<string, 'closed' | 'not-a-job'>();
  const wanted = new Set<number>();
  const totals = counter();
  const leftOut = { closed: 0, notJobs: 0, filtered: 0 };
  let done = 0;
  const addRow = (row: Row, index: number): void => {
    if (!wants(filters, row)) {
      leftOut.filtered += 1;
      return;
    }
    wanted.add(index);
    totals.add(row);
  };
  return {
    add: (index: number, result: FileResult): void => {
      done += 1;
      if (result.kind === 'closed' || result.kind === 'not-a-job') {
        without.set(files[index] ?? '', result.kind);
        leftOut[result.kind === 'closed' ? 'closed' : 'notJobs'] += 1;
        return;
      }
      addRow(rows.put(index, result), index);
    },
    addChanges: ({ of, gone }: Differences): void => {
      for (const index of rows.inOrder()) {
        const kind = of(index)?.kind;
        if (kind && wanted.has(index)) totals.addChange(kind);
      }
      for (const { change } of gone) totals.addChange(change.kind);
    },
    /** The exit code of the gravest result. */
    exitCode: (stopped: boolean, { strict, refused }: Trust): ExitCode => {
      const { faults, failing, by } = totals.totals();
      const unjudged = by['cannot-be-judged'];
      if (faults > 0) return exitCodes.fault;
      if (stopped) return exitCodes.stopped;
      if (refused.length > 0 || (strict && unjudged > 0)) return exitCodes.wrongInput;
      return failing > 0 || unjudged > 0 ? exitCodes.found : exitCodes.clear;
    },
    isWanted: (index: number): boolean => wanted.has(index),
    /** Files that were read and have no row. */
    without,
    totals,
    leftOut,
    /** How many files have a result. */
    done: () => done,
  };
};
