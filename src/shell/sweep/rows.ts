import { type Row, type RowProblem, rowAt, type Standing } from '../../core/sweep/row.ts';
import { orderOf } from '../../core/sweep/row-order.ts';
import type { Done } from './batch.ts';
import { textStore } from './row-store.ts';

type Told = Extract<Done, { readonly kind: 'job' | 'problems' }>;

/** The rows of a sweep, in the order of the files whatever the order in which they came. */
export interface Rows {
  /** Keeps what became of a file, and gives its row. */
  readonly put: (done: Told) => Row;
  /** The row of a file, or null where it has none. */
  readonly get: (index: number) => Row | null;
  /** The files that have rows, in their order. */
  readonly inOrder: () => Iterable<number>;
  /** The same, the worst first. */
  readonly worstFirst: () => Iterable<number>;
  readonly close: () => void;
}

/** Up to so many rows are simply kept; more of them would fill the memory. */
const fewRows = 5_000;

const columns = 3;

const rowOf = (file: string, done: Told, withinDays: number): Row => {
  if (done.kind === 'job') return rowAt(file, JSON.parse(done.json) as Standing, done.asOf, withinDays);
  const next = { kind: 'correct-file', id: null, title: 'Correct the file', minutes: null } as const;
  return { file, job: null, problems: done.problems, next, change: null };
};

/** Room for the rows of `files`. */
export const openRows = (files: readonly string[], withinDays: number, few = fewRows): Rows => {
  const count = files.length;
  const order = new Int32Array(count * columns);
  const present = new Uint8Array(count);
  const asOf = new Float64Array(count);
  const kept: Row[] | null = count <= few ? [] : null;
  const texts = kept === null ? textStore(count) : null;

  const inOrder = function* (): Generator<number> {
    for (let index = 0; index < count; index += 1) if (present[index]) yield index;
  };

  return {
    put: (done) => {
      const { index } = done;
      const row = rowOf(files[index] ?? '', done, withinDays);
      order.set(orderOf(row), index * columns);
      if (kept) kept[index] = row;
      else if (done.kind === 'job') texts?.put(index, done.json);
      else texts?.put(index, JSON.stringify(done.problems));
      asOf[index] = done.kind === 'job' ? done.asOf : Number.NaN;
      present[index] = 1;
      return row;
    },
    get: (index) => {
      if (!present[index]) return null;
      const row = kept?.[index];
      if (row) return row;
      const text = texts?.get(index);
      if (text === null || text === undefined) return null;
      const at = asOf[index] ?? Number.NaN;
      const done: Told = Number.isNaN(at)
        ? { index, kind: 'problems', problems: JSON.parse(text) as RowProblem[] }
        : { index, kind: 'job', asOf: at, json: text };
      return rowOf(files[index] ?? '', done, withinDays);
    },
    inOrder,
    worstFirst: () => {
      const sorted = Uint32Array.from(inOrder());
      const key = (index: number, column: number): number => order[index * columns + column] ?? 0;
      return sorted.sort((a, b) => {
        for (let column = 0; column < columns; column += 1) {
          const difference = key(a, column) - key(b, column);
          if (difference !== 0) return difference;
        }
        return a - b;
      });
    },
    close: () => texts?.close(),
  };
};
