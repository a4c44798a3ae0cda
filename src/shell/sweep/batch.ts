import { resolve } from 'node:path';
import type { FailLevel } from '../../core/level.ts';
import type { RowProblem } from '../../core/sweep/row.ts';
import { programFault } from '../../core/sweep/totals.ts';
import { type AsOf, asOfTyped } from '../as-of.ts';
import type { Io } from '../io.ts';
import { readFailure } from '../read-failure.ts';
import { type Cache, type CachePart, noCache, openCache } from './cache.ts';
import { contentHash } from './hash.ts';
import { type Judged, judgeOne, rowProblems } from './judge-one.ts';
import { readPlainFile } from './read-file.ts';
import { type Around, surroundingsOf } from './sweep-inputs.ts';

/** What every part of a sweep is judged by; plain data, since it goes to other threads. */
export interface SweepSettings {
  readonly cwd: string;
  readonly rules: readonly string[];
  /** The clock's time, once for the whole sweep. */
  readonly now: number;
  /** The text of `--as-of`; null for now. */
  readonly asOf: string | null;
  readonly failOn: FailLevel | null;
  /** Whether closed jobs are wanted, too. */
  readonly closed: boolean;
  /** Null where nothing is to be kept. */
  readonly cacheFolder: string | null;
  /** Version and build of the program. */
  readonly program: string;
}

/** Some files of a sweep, which one part of the cache serves. */
export interface Batch {
  readonly bucket: number;
  readonly files: readonly { readonly index: number; readonly name: string; readonly named: boolean }[];
}

/** What became of a file, with its place among all; a standing as JSON, which is quickest handed on between threads. */
export type Done = { readonly index: number } & (
  | { readonly kind: 'job'; readonly asOf: number; readonly json: string }
  | { readonly kind: 'closed' }
  | { readonly kind: 'not-a-job' }
  | { readonly kind: 'problems'; readonly problems: readonly RowProblem[] }
);

/** What looks on while a batch is judged. */
export interface Watcher {
  /** Called before each file: whoever dies has died of it. */
  readonly before: (index: number) => void;
  /** Asked before each file whether to leave the rest. */
  readonly stopped: () => boolean;
}

const unread = (error: unknown, name: string, cwd: string): Extract<Judged, { kind: 'problems' }> => ({
  kind: 'problems',
  problems: rowProblems([readFailure(error, name)], cwd),
});

const atFault = (error: unknown): Extract<Judged, { kind: 'problems' }> => ({
  kind: 'problems',
  problems: [
    {
      code: programFault,
      message: `a fault in the program itself: ${error instanceof Error ? error.message : String(error)}`,
      line: null,
      column: null,
      hint: 'the file is as it was; "cornerwise check" on it may tell more',
    },
  ],
});

const problemsOf = (index: number, { problems }: Extract<Judged, { kind: 'problems' }>): Done => ({
  index,
  kind: 'problems',
  problems,
});

/** Reads the time once for each zone. */
const onceAZone = (asOf: AsOf): AsOf => {
  const known = new Map<string, number | null>();
  return (zone) => {
    const at = known.has(zone) ? (known.get(zone) ?? null) : asOf(zone);
    known.set(zone, at);
    return at;
  };
};

const always = { from: Number.NEGATIVE_INFINITY, until: Number.POSITIVE_INFINITY };

/** Judges batches under one set of settings; what they share is read once. */
export const batchJudge = (settings: SweepSettings, io: Io) => {
  const { cwd, rules, now, failOn, closed, cacheFolder, program } = settings;
  const asOf: AsOf = onceAZone(asOfTyped(settings.asOf ?? undefined) ?? (() => now));
  const around = surroundingsOf(rules, failOn, program, io);
  const cache: Cache = cacheFolder === null ? noCache : openCache(cacheFolder, now);

  const fromCache = (index: number, content: string, { key }: Around, part: CachePart): Done | null => {
    const entry = part.find(content, key, asOf);
    if (entry === null) return null;
    if (entry.status === 'closed' && !closed) return { index, kind: 'closed' };
    const at = asOf(entry.zone);
    // Of a closed job that is now wanted nothing was kept.
    return at === null || entry.json === '' ? null : { index, kind: 'job', asOf: at, json: entry.json };
  };

  const judgeAnew = async (
    bytes: Uint8Array,
    content: string,
    nearby: Around,
    { index, named }: Batch['files'][number],
    part: CachePart,
  ): Promise<Done> => {
    const judged = await judgeOne(bytes, nearby, { asOf, closed, named, cwd });
    switch (judged.kind) {
      case 'job': {
        const { standing, span } = judged;
        const json = JSON.stringify(standing);
        const { status, zone } = standing;
        part.put(content, nearby.key, { from: span.from, until: span.until, zone, status, json });
        return { index, kind: 'job', asOf: judged.asOf, json };
      }
      case 'closed':
        part.put(content, nearby.key, { ...always, json: '', status: 'closed', zone: judged.zone });
        return { index, kind: 'closed' };
      case 'not-a-job':
        return { index, kind: 'not-a-job' };
      case 'problems':
        return problemsOf(index, judged);
    }
  };

  const judge = async (file: Batch['files'][number], part: CachePart): Promise<Done> => {
    const { index, name } = file;
    let bytes: Uint8Array;
    try {
      bytes = readPlainFile(resolve(cwd, name));
    } catch (error) {
      return problemsOf(index, unread(error, name, cwd));
    }
    try {
      const nearby = await around(name);
      const content = cacheFolder === null ? '' : contentHash(bytes);
      return fromCache(index, content, nearby, part) ?? (await judgeAnew(bytes, content, nearby, file, part));
    } catch (error) {
      return problemsOf(index, atFault(error));
    }
  };

  return async ({ bucket, files }: Batch, { before, stopped }: Watcher): Promise<Done[]> => {
    const part = cache.open(bucket);
    const done: Done[] = [];
    for (const file of files) {
      if (stopped()) break;
      before(file.index);
      done.push(await judge(file, part));
    }
    part.save();
    return done;
  };
};
