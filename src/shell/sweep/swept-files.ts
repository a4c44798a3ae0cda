import type { Row } from '../../core/sweep/row.ts';
import { counter } from '../../core/sweep/totals.ts';
import { type ExitCode, exitCodes } from '../shell.ts';
import type { Done } from './batch.ts';
import type { Differences } from './differences.ts';
import { type Filters, wants } from './filters.ts';
import type { Rows } from './rows.ts';

/** What is noted of each file as it comes, in any order. */
export const ledger = (files: readonly string[], rows: Rows, filters: Filters) => {
  const without = new Map<string, 'closed' | 'not-a-job'>();
  const wanted = new Uint8Array(files.length);
  const totals = counter();
  const left = { closed: 0, notJobs: 0, filtered: 0 };
  let done = 0;
  const addRow = (row: Row, index: number): void => {
    if (!wants(filters, row)) {
      left.filtered += 1;
      return;
    }
    wanted[index] = 1;
    totals.add(row);
  };
  return {
    add: (one: Done): void => {
      done += 1;
      const name = files[one.index] ?? '';
      if (one.kind === 'closed' || one.kind === 'not-a-job') {
        without.set(name, one.kind);
        left[one.kind === 'closed' ? 'closed' : 'notJobs'] += 1;
        return;
      }
      addRow(rows.put(one), one.index);
    },
    addChanges: ({ of, gone }: Differences): void => {
      for (const index of rows.inOrder()) {
        const kind = of(index)?.kind;
        if (kind && wanted[index]) totals.addChange(kind);
      }
      for (const { change } of gone) totals.addChange(change.kind);
    },
    /** The gravest of what happened. */
    exitCode: (stopped: boolean): ExitCode => {
      const { faults, failing, by } = totals.totals();
      if (faults > 0) return exitCodes.fault;
      if (stopped) return exitCodes.stopped;
      if (by['cannot-be-judged'] > 0) return exitCodes.wrongInput;
      return failing > 0 ? exitCodes.found : exitCodes.clear;
    },
    isWanted: (index: number): boolean => wanted[index] === 1,
    without,
    totals,
    left,
    done: () => done,
  };
};
