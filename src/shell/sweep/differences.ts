import { changeOf } from '../../core/sweep/compare-rows.ts';
import type { Change, GoneRow, Row } from '../../core/sweep/row.ts';
import type { EarlierSweep } from './earlier.ts';
import type { Rows } from './rows.ts';

/** What a sweep came to beside an earlier one. */
export interface Differences {
  /** What became of a row; null where it has none. */
  readonly of: (index: number) => Change | null;
  readonly gone: readonly GoneRow[];
}

export interface Found {
  readonly files: readonly string[];
  readonly rows: Rows;
  /** Files that were met and are no row: closed jobs that nobody asked for, and what is no job any more. */
  readonly without: ReadonlyMap<string, 'closed' | 'not-a-job'>;
  /** Whether a file is one that this sweep would have met. */
  readonly concerns: (file: string) => boolean;
  /** Whether a file is there at all, asked only of those that were not met. */
  readonly exists: (file: string) => boolean;
  /** Whether it was stopped, so that what it did not meet may still be there. */
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

/** The line of the earlier sweep for each row: that of the file, else the one line of its job that no file took. */
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
  // A file that was moved or renamed is known by its job; a copied job is nobody's.
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

/** Holds a sweep against an earlier one. Only what changed stays in memory. */
export const differencesFrom = (found: Found, earlier: EarlierSweep): Differences => {
  const { rows } = found;
  const matches = matchesOf(found, earlier);
  const changed = new Map<number, Change>();
  for (const [index, line] of matches) {
    const row: Row | null = rows.get(index);
    const change = row ? changeOf(earlier.get(line).earlier, row) : unchanged;
    if (change.kind !== 'unchanged') changed.set(index, change);
  }
  return {
    of: (index) => (matches.has(index) ? (changed.get(index) ?? unchanged) : added),
    gone: found.stopped ? [] : goneOf(found, earlier, new Set(matches.values())),
  };
};
