import { changeOf } from '../../core/sweep/compare-rows.ts';
import type { Change, GoneRow, JudgedRow, LastGood, Row } from '../../core/sweep/row.ts';
import type { EarlierSweep } from './earlier.ts';
import type { Rows } from './rows.ts';

/** How a sweep differs from an earlier one. */
export interface Differences {
  /** The change of a row; null where it has none. */
  readonly of: (index: number) => Change | null;
  /** The packs of a job on the earlier night; null where that knows nothing of it. */
  readonly packsOf: (index: number) => JudgedRow['packs'] | null;
  /** The row of the last night at which a file could be judged; null where there is none. */
  readonly lastOf: (index: number) => LastGood | null;
  readonly gone: readonly GoneRow[];
}

export interface Found {
  readonly files: readonly string[];
  readonly rows: Rows;
  /** Files that were read and have no row: closed jobs that were not asked for, and files that are no job any more. */
  readonly without: ReadonlyMap<string, 'closed' | 'not-a-job'>;
  /** Whether this sweep would have read a file. */
  readonly concerns: (file: string) => boolean;
  /** Whether a file exists; asked only of files that were not read. */
  readonly exists: (file: string) => boolean;
  /** Whether the sweep was stopped, so that files it did not read may still be there. */
  readonly stopped: boolean;
}

const unchanged: Change = { kind: 'unchanged', says: [] };
const added: Change = { kind: 'new', says: [] };

const goneWords = {
  closed: 'closed',
  'not-a-job': 'its file is no job any more',
  'not-met': 'its file is not among those of this sweep',
  missing: 'the file is no longer there',
} as const;

/** Matches each row with a line of the earlier sweep: that of its file, else the only line of its job left over. */
const matchesOf = ({ rows, files }: Found, earlier: EarlierSweep): Map<number, number> => {
  const matches = new Map<number, number>();
  const taken = new Set<number>();
  const left: number[] = [];
  for (const index of rows.inOrder()) {
    const line = earlier.byFile(files[index] ?? '');
    if (line === null) left.push(index);
    else {
      matches.set(index, line);
      taken.add(line);
    }
  }
  // A file that was moved or renamed is matched by its job, unless the job was copied.
  const wanted = new Map<string, number[]>();
  for (const index of left) {
    const job = rows.get(index)?.job;
    if (job) wanted.set(job, [...(wanted.get(job) ?? []), index]);
  }
  for (const [job, [index, ...others]] of wanted) {
    const [line, ...more] = earlier.byJob(job).filter((one) => !taken.has(one));
    if (index === undefined || line === undefined || others.length > 0 || more.length > 0) continue;
    matches.set(index, line);
    taken.add(line);
  }
  return matches;
};

const goneOf = (
  { without, concerns, exists }: Found,
  earlier: EarlierSweep,
  taken: ReadonlySet<number>,
): GoneRow[] => {
  const gone: GoneRow[] = [];
  for (let line = 0; line < earlier.count; line += 1) {
    if (taken.has(line) || !concerns(earlier.nameOf(line))) continue;
    const { file, job, vehicle, title } = earlier.get(line);
    const why = without.get(file);
    const says = [goneWords[why ?? (exists(file) ? 'not-met' : 'missing')]];
    gone.push({ file, job, vehicle, title, change: { kind: 'gone', says } });
  }
  return gone;
};

/** Compares a sweep with an earlier one. */
export const differencesFrom = (found: Found, earlier: EarlierSweep): Differences => {
  const { rows } = found;
  const matches = matchesOf(found, earlier);
  const changed = new Map<number, Change>();
  const packs = new Map<number, JudgedRow['packs']>();
  for (const [index, line] of matches) {
    const row: Row | null = rows.get(index);
    const before = earlier.get(line).earlier;
    if (before.job !== null) packs.set(index, before.packs);
    const change = row ? changeOf(before, row) : unchanged;
    if (change.kind !== 'unchanged') changed.set(index, change);
  }
  return {
    of: (index) => (matches.has(index) ? (changed.get(index) ?? unchanged) : added),
    packsOf: (index) => packs.get(index) ?? null,
    lastOf: (index) => {
      const line = matches.get(index);
      return line === undefined ? null : earlier.get(line).last;
    },
    gone: found.stopped ? [] : goneOf(found, earlier, new Set(matches.values())),
  };
};
