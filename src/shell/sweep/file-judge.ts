import type { Instant } from '../../core/job.ts';
import type { FailLevel } from '../../core/level.ts';
import type { RowProblem, Standing } from '../../core/sweep/row.ts';
import { type AsOf, asOfTyped } from '../as-of.ts';
import { readPlain } from '../disk/read-plain.ts';
import { guarded } from '../guarded.ts';
import type { Io } from '../io.ts';
import { jobSource } from '../job-source.ts';
import { readFailure } from '../read-failure.ts';
import type { CacheShard } from './cache.ts';
import { contentHash } from './hash.ts';
import { judgeOne, rowProblems } from './judge-one.ts';
import type { SweepInputs } from './sweep-inputs.ts';

/** What all files of a sweep are judged by. */
export interface SweepSettings {
  readonly cwd: string;
  /** Rule folders from the command line. */
  readonly rules: readonly string[];
  /** The time when the sweep began. */
  readonly now: Instant;
  /** The text of `--as-of`; null for now. */
  readonly asOf: string | null;
  /** The fail level from the command line; null for that of the shop file. */
  readonly failOn: FailLevel | null;
  /** Whether to judge closed jobs. */
  readonly closed: boolean;
  /** Where results are kept between sweeps; null keeps none. */
  readonly cacheFolder: string | null;
  /** Version and build of the program. */
  readonly program: string;
  readonly io: Pick<Io, 'zone' | 'now'>;
}

/** A file of a sweep. */
export interface SweptFile {
  readonly path: string;
  /** Its name as printed. */
  readonly name: string;
  /** Whether the user named it, so that it is judged whatever it holds. */
  readonly named: boolean;
  readonly inputs: SweepInputs;
}

/** The result for one file of a sweep. */
export type FileResult =
  | { readonly kind: 'job'; readonly asOf: Instant; readonly standing: Standing }
  /** A closed job, where closed jobs are not judged. */
  | { readonly kind: 'closed' }
  | { readonly kind: 'not-a-job' }
  | { readonly kind: 'problems'; readonly problems: readonly RowProblem[] };

const always = { from: Number.NEGATIVE_INFINITY, until: Number.POSITIVE_INFINITY };

/** Judges files one by one under the settings of a sweep, with what the cache holds of each. */
export const fileJudge = ({
  cwd,
  now,
  asOf: typed,
  closed,
  io,
}: SweepSettings): ((file: SweptFile, shard: CacheShard | null) => Promise<FileResult>) => {
  const asOf: AsOf = asOfTyped(typed ?? undefined) ?? (() => now);

  const fromCache = (content: string, { key }: SweepInputs, shard: CacheShard): FileResult | null => {
    const entry = shard.find(content, key, asOf);
    if (entry === null) return null;
    if (entry.status === 'closed' && !closed) return { kind: 'closed' };
    const at = asOf(entry.zone);
    // The cache holds no standing of a closed job that was not asked for.
    if (at === null || entry.json === '') return null;
    return { kind: 'job', asOf: at, standing: JSON.parse(entry.json) as Standing };
  };

  const judgeAnew = async (
    bytes: Uint8Array,
    content: string,
    { path, named, inputs }: SweptFile,
    shard: CacheShard | null,
  ): Promise<FileResult> => {
    const judged = await judgeOne(bytes, inputs, {
      asOf,
      closed,
      named,
      cwd,
      source: jobSource(path, io, asOf),
    });
    if (judged.kind === 'job') {
      const { standing, span, byText } = judged;
      const { status, zone } = standing;
      const { from, until } = span;
      // Results are found by what a file says alone.
      if (byText)
        shard?.put(content, inputs.key, { from, until, zone, status, json: JSON.stringify(standing) });
      return { kind: 'job', asOf: judged.asOf, standing };
    }
    if (judged.kind === 'closed') {
      shard?.put(content, inputs.key, { ...always, json: '', status: 'closed', zone: judged.zone });
      return { kind: 'closed' };
    }
    return judged;
  };

  return async (file, shard) => {
    let bytes: Uint8Array;
    try {
      bytes = readPlain(file.path);
    } catch (error) {
      return { kind: 'problems', problems: rowProblems([readFailure(error, file.name)], cwd) };
    }
    return guarded<FileResult>(
      async () => {
        const content = shard === null ? '' : contentHash(bytes);
        const kept = shard === null ? null : fromCache(content, file.inputs, shard);
        return kept ?? (await judgeAnew(bytes, content, file, shard));
      },
      (problems) => ({ kind: 'problems', problems: rowProblems(problems, cwd) }),
    );
  };
};
