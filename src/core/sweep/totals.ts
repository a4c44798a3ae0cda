import { programFault } from '../flaw.ts';
import { type Change, isJudged, type Row } from './row.ts';
import { type Severity, severities, severityOf } from './row-order.ts';

/** What the lines of a sweep come to. */
export interface Totals {
  /** Files judged or not; what was left out is not among them. */
  readonly files: number;
  readonly by: Readonly<Record<Severity, number>>;
  readonly status: Readonly<Record<'open' | 'waiting' | 'closed', number>>;
  /** Jobs with something that ends soon, and with something that ended. */
  readonly endingSoon: number;
  readonly ended: number;
  /** Jobs with a finding at the fail level. */
  readonly failing: number;
  /** Files at which the program itself failed; they count among those that cannot be judged, too. */
  readonly faults: number;
  readonly changes: Readonly<Record<Change['kind'], number>>;
}

/** Counts rows one by one, so that none has to be kept. */
export interface Counter {
  readonly add: (row: Row) => void;
  /** What became of a row, which is known only once all of them are there. */
  readonly addChange: (kind: Change['kind']) => void;
  readonly totals: () => Totals;
}

/** A counter at nought. */
export const counter = (): Counter => {
  const by = Object.fromEntries(severities.map((one) => [one, 0])) as Record<Severity, number>;
  const status = { open: 0, waiting: 0, closed: 0 };
  const changes = { new: 0, changed: 0, unchanged: 0, gone: 0 };
  let files = 0;
  let endingSoon = 0;
  let ended = 0;
  let failing = 0;
  let faults = 0;
  return {
    add: (row) => {
      files += 1;
      by[severityOf(row)] += 1;
      if (!isJudged(row)) {
        if (row.problems.some(({ code }) => code === programFault)) faults += 1;
        return;
      }
      status[row.status] += 1;
      if (row.fails) failing += 1;
      if (row.ends.some((end) => end.soon)) endingSoon += 1;
      if (row.ends.some((end) => end.ended)) ended += 1;
    },
    addChange: (kind) => {
      changes[kind] += 1;
    },
    totals: () => ({
      files,
      by: { ...by },
      status: { ...status },
      endingSoon,
      ended,
      failing,
      faults,
      changes: { ...changes },
    }),
  };
};
