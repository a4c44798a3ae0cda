import { createHash, type Hash } from 'node:crypto';
import type { Earlier } from '../../core/sweep/compare-rows.ts';
import type { DatedEnd, LastGood } from '../../core/sweep/row.ts';
import { outputFormat } from '../../report/output-format.ts';
import { closePlain, openPlain, readAt } from '../disk/read-plain.ts';

/** A line of an earlier sweep. */
export interface EarlierRow {
  readonly file: string;
  readonly job: string | null;
  readonly vehicle: string | null;
  readonly title: string | null;
  readonly earlier: Earlier;
  /** The row itself where the job could be judged, else the one that it kept; null where there is none. */
  readonly last: LastGood | null;
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

/** What no sweep has written, or what is no longer as one wrote it. */
export class NotASweep extends Error {
  /** Null where no line of its own is to blame. */
  readonly line: number | null;

  constructor(line: number | null) {
    super(
      line === null
        ? 'it was cut short or changed since it was written'
        : 'this line is not one that "sweep --format ndjson" writes',
    );
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

/** The last line of a remembered night: the hash of all before it. */
const sealOf = (hash: Hash): string => JSON.stringify({ sha256: hash.digest('hex') });

/** The lines of a night, and behind them their seal. */
export function* sealed(pieces: Iterable<string>): Generator<string> {
  const hash = createHash('sha256');
  for (const piece of pieces) {
    hash.update(piece);
    yield piece;
  }
  yield `${sealOf(hash)}\n`;
}

/** A row of text that was once written, or null where it is none; `gone` where it tells of a job that had gone. */
const readRow = (text: string): EarlierRow | 'gone' | null => {
  let row: unknown;
  try {
    row = JSON.parse(text);
  } catch {
    return null;
  }
  if (!isRecord(row) || typeof row.file !== 'string') return null;
  const { format, ...member } = row;
  // Older nights do not say which format they are of.
  if (format !== undefined && format !== outputFormat) return null;
  if (isRecord(row.change) && row.change.kind === 'gone') return 'gone';
  const { file, job } = row;
  const named = { file, vehicle: textOrNull(row.vehicle), title: textOrNull(row.title) };
  if (job === null) {
    const last = isRecord(row.last) ? row.last : null;
    return isList(row.problems)
      ? { ...named, job, earlier: { job, problems: row.problems as never }, last }
      : null;
  }
  const { findings, holdPoints, steps, ends, waitsFor } = row;
  if (typeof job !== 'string' || !isList(findings) || !isList(holdPoints) || !isList(steps)) return null;
  if (!isList(ends) || !Array.isArray(waitsFor)) return null;
  const packs = isList(row.packs) ? row.packs : [];
  const earlier = {
    job,
    status: row.status,
    findings,
    holdPoints,
    steps,
    ends: ends.map(readEnd),
    waitsFor,
    packs,
  };
  return { ...named, job, earlier: earlier as unknown as Earlier, last: { ...member, change: null } };
};

const isSeal = (bytes: Buffer): boolean => bytes.length === 77 && bytes.toString().startsWith('{"sha256":');

const chunkSize = 1 << 20;

/** Every line of a file with the place of its first byte; blank ones are left out. */
function* linesOf(file: number): Generator<{ readonly at: number; readonly bytes: Buffer }> {
  let rest = Buffer.alloc(0);
  let at = 0;
  for (let position = 0; ; ) {
    const chunk = readAt(file, chunkSize, position);
    position += chunk.length;
    const bytes = Buffer.concat([rest, chunk]);
    let start = 0;
    for (let end = bytes.indexOf(10); end >= 0; end = bytes.indexOf(10, start)) {
      if (end > start) yield { at: at + start, bytes: bytes.subarray(start, end) };
      start = end + 1;
    }
    at += start;
    rest = Buffer.from(bytes.subarray(start));
    if (chunk.length === 0) break;
  }
  if (rest.length > 0) yield { at, bytes: rest };
}

/**
 * Opens what an earlier sweep wrote as ndjson.
 *
 * @param isSealed whether it must end with its seal, as what `--remember` keeps does
 * @throws NotASweep for a line that is none of its, and what the system says where the file cannot be read
 */
export const openEarlier = (path: string, isSealed = false): EarlierSweep => {
  const file = openPlain(path);
  const starts: number[] = [];
  const sizes: number[] = [];
  const names: string[] = [];
  const files = new Map<string, number>();
  const jobs = new Map<string, number[]>();
  try {
    let number = 0;
    const hash = createHash('sha256');
    let seal: string | null = null;
    for (const { at, bytes } of linesOf(file)) {
      number += 1;
      if (seal !== null) throw new NotASweep(null);
      if (isSeal(bytes)) {
        seal = bytes.toString();
        continue;
      }
      hash.update(bytes).update('\n');
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
    if (seal === null ? isSealed : seal !== sealOf(hash)) throw new NotASweep(null);
  } catch (error) {
    closePlain(file);
    throw error;
  }
  return {
    count: starts.length,
    byFile: (name) => files.get(name) ?? null,
    byJob: (job) => jobs.get(job) ?? [],
    nameOf: (line) => names[line] ?? '',
    get: (line) => {
      const row = readRow(new TextDecoder().decode(readAt(file, sizes[line] ?? 0, starts[line] ?? 0)));
      // It was a row when it was opened: somebody has written to the file since.
      if (row === null || row === 'gone') throw new NotASweep(line + 1);
      return row;
    },
    close: () => closePlain(file),
  };
};
