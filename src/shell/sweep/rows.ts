import { type Row, type RowNow, rowAt } from '../../core/sweep/row.ts';
import { orderOf } from '../../core/sweep/row-order.ts';
import type { FileResult } from './file-judge.ts';

type RowResult = Extract<FileResult, { readonly kind: 'job' | 'problems' }>;

/** The rows of a sweep, by the index of the file. */
export interface Rows {
  /** Makes the row of a file from its result, and keeps it. */
  readonly put: (index: number, result: RowResult) => Row;
  /** The row of a file, or null where it has none. */
  readonly get: (index: number) => Row | null;
  /** The indexes of the files that have rows, in the order of the files. */
  readonly inOrder: () => Iterable<number>;
  /** The same, with the worst rows first. */
  readonly worstFirst: () => Iterable<number>;
}

const rowOf = (file: string, result: RowResult, withinDays: number): Row => {
  if (result.kind === 'job') return rowAt(file, result.standing, result.asOf, withinDays);
  const { problems } = result;
  const [problem] = problems;
  const now: RowNow = {
    kind: 'correct',
    id: null,
    title: 'Correct the file',
    because: problem?.message ?? '',
    minutes: 0,
    elapsed: 0,
    cautions: [],
    command: { kind: 'edit', at: problem?.line ? `line ${problem.line}` : 'the file' },
    for: 'technician',
  };
  return { file, job: null, problems, now, change: null, last: null };
};

/**
 * Makes room for the rows of some files.
 *
 * @param withinDays waivers and access that end within so many days end soon
 */
export const makeRows = (files: readonly string[], withinDays: number): Rows => {
  const rows: (Row | null)[] = files.map(() => null);

  const inOrder = function* (): Generator<number> {
    for (const [index, row] of rows.entries()) if (row !== null) yield index;
  };

  return {
    put: (index, result) => {
      const row = rowOf(files[index] ?? '', result, withinDays);
      rows[index] = row;
      return row;
    },
    get: (index) => rows[index] ?? null,
    inOrder,
    worstFirst: () => {
      const ordered = rows.flatMap((row, index) => (row === null ? [] : [{ index, order: orderOf(row) }]));
      ordered.sort(
        (a, b) =>
          a.order[0] - b.order[0] || a.order[1] - b.order[1] || a.order[2] - b.order[2] || a.index - b.index,
      );
      return ordered.map(({ index }) => index);
    },
  };
};
