import { closeSync, openSync, readSync } from 'node:fs';
import type { Earlier } from '../../core/sweep/compare-rows.ts';
import type { DatedEnd } from '../../core/sweep/row.ts';

/** A line of an earlier sweep. */
export interface EarlierRow {
  readonly file: string;
  readonly job: string | null;
  readonly vehicle: string | null;
  readonly title: string | null;
  readonly earlier: Earlier;
}

/** The lines of an earlier sweep, which stay on the disk; only their places are in memory. */
export interface EarlierSweep {
  readonly count: number;
  readonly byFile: (file: string) => number | null;
  /** The lines of a job, which may have been copied. */
  readonly byJob: (job: string) => readonly number[];
  readonly nameOf: (line: number) => string;
  readonly get: (line: number) => EarlierRow;
  readonly close: () => void;
}

/** A line that no sweep has written. */
export class NotASweep extends Error {
  readonly line: number;

  constructor(line: number) {
    super('this line is not one that "sweep --format ndjson" writes');
    this.line = line;
  }
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const isList = (value: unknown): value is Record<string, unknown>[] =>
  Array.isArray(value) && value.every(isRecord);

const textOrNull = (value: unknown): string | null => (typeof value === 'string' ? value : null);

const readEnd = (end: Record<string, unknown>): DatedEnd => ({
  kind: end.kind === 'access' ? 'access' : 'waiver',
  what: String(end.what),
  at: Date.parse(String(end.at)),
  until: textOrNull(end.until),
  reason: textOrNull(end.reason),
  ended: end.ended === true,
  soon: end.soon === true,
});

/** A row of text that was once written, or null where it is none; `gone` where it tells of a job that had gone. */
const readRow = (text: string): EarlierRow | 'gone' | null => {
  let row: unknown;
  try {
    row = JSON.parse(text);
  } catch {
    return null;
  }
  if (!isRecord(row) || typeof row.file !== 'string') return null;
  if (isRecord(row.change) && row.change.kind === 'gone') return 'gone';
  const { file, job } = row;
  const named = { file, vehicle: textOrNull(row.vehicle), title: textOrNull(row.title) };
  if (job === null) {
    return isList(row.problems) ? { ...named, job, earlier: { job, problems: row.problems as never } } : null;
  }
  const { findings, holdPoints, steps, ends, waitsFor } = row;
  if (typeof job !== 'string' || !isList(findings) || !isList(holdPoints) || !isList(steps)) return null;
  if (!isList(ends) || !Array.isArray(waitsFor)) return null;
  const earlier = { job, status: row.status, findings, holdPoints, steps, ends: ends.map(readEnd), waitsFor };
  return { ...named, job, earlier: earlier as unknown as Earlier };
};

const chunkSize = 1 << 20;

/** Every line of a file with the place of its first byte; blank ones are left out. */
function* linesOf(file: number): Generator<{ readonly at: number; readonly bytes: Buffer }> {
  let rest = Buffer.alloc(0);
  let at = 0;
  for (let position = 0; ; ) {
    const chunk = Buffer.allocUnsafe(chunkSize);
    const count = readSync(file, chunk, 0, chunkSize, position);
    position += count;
    const bytes = Buffer.concat([rest, chunk.subarray(0, count)]);
    let start = 0;
    for (let end = bytes.indexOf(10); end >= 0; end = bytes.indexOf(10, start)) {
      if (end > start) yield { at: at + start, bytes: bytes.subarray(start, end) };
      start = end + 1;
    }
    at += start;
    rest = Buffer.from(bytes.subarray(start));
    if (count === 0) break;
  }
  if (rest.length > 0) yield { at, bytes: rest };
}

/**
 * Opens what an earlier sweep wrote as ndjson.
 *
 * @throws NotASweep for a line that is none of its, and what the system says where the file cannot be read
 */
export const openEarlier = (path: string): EarlierSweep => {
  const file = openSync(path, 'r');
  const starts: number[] = [];
  const sizes: number[] = [];
  const names: string[] = [];
  const files = new Map<string, number>();
  const jobs = new Map<string, number[]>();
  try {
    let number = 0;
    for (const { at, bytes } of linesOf(file)) {
      number += 1;
      const row = readRow(bytes.toString('utf8'));
      if (row === null) throw new NotASweep(number);
      if (row === 'gone') continue;
      const line = starts.length;
      starts.push(at);
      sizes.push(bytes.length);
      names.push(row.file);
      files.set(row.file, line);
      if (row.job !== null) jobs.set(row.job, [...(jobs.get(row.job) ?? []), line]);
    }
  } catch (error) {
    closeSync(file);
    throw error;
  }
  return {
    count: starts.length,
    byFile: (name) => files.get(name) ?? null,
    byJob: (job) => jobs.get(job) ?? [],
    nameOf: (line) => names[line] ?? '',
    get: (line) => {
      const bytes = Buffer.alloc(sizes[line] ?? 0);
      readSync(file, bytes, 0, bytes.length, starts[line] ?? 0);
      const row = readRow(bytes.toString('utf8'));
      // It was a row when it was opened: somebody has written to the file since.
      if (row === null || row === 'gone') throw new NotASweep(line + 1);
      return row;
    },
    close: () => closeSync(file),
  };
};
