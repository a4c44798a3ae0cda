import { dirname, resolve } from 'node:path';
import { cacheShardOf, openCache } from './cache.ts';
import { type FileResult, fileJudge, type SweepSettings } from './file-judge.ts';
import type { SweepInputs } from './sweep-inputs.ts';

/** How often a sweep lets timers and signals run, in milliseconds, so that Ctrl-C is heard. */
const pauseEvery = 50;

export interface JudgeFilesOptions {
  /** Names as printed. */
  readonly files: readonly string[];
  /** Those of them that the user named. */
  readonly named: ReadonlySet<string>;
  readonly settings: SweepSettings;
  /** What the jobs of each folder are judged by. */
  readonly inputsOf: ReadonlyMap<string, SweepInputs>;
  /** Called with the result of each file, by its index in `files`, in no particular order. */
  readonly done: (index: number, result: FileResult) => void;
  /** Asked after each file; true leaves out the rest. */
  readonly stopped: () => boolean;
}

/** The indexes of files, grouped by the cache shard that holds their results. */
const byCacheShard = (files: readonly string[]): Map<number, number[]> => {
  const groups = new Map<number, number[]>();
  for (const [index, name] of files.entries()) {
    const shard = cacheShardOf(name);
    const group = groups.get(shard);
    if (group) group.push(index);
    else groups.set(shard, [index]);
  }
  return groups;
};

const pause = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/**
 * Judges the files of a sweep. Files of one cache shard are judged together, so that only one shard is in memory at a
 * time.
 */
export const judgeFiles = async ({
  files,
  named,
  settings,
  inputsOf,
  done,
  stopped,
}: JudgeFilesOptions): Promise<void> => {
  const { cwd, cacheFolder, now } = settings;
  const judge = fileJudge(settings);
  const cache = cacheFolder === null ? null : openCache(cacheFolder, now);
  let paused = performance.now();
  for (const [number, indexes] of byCacheShard(files)) {
    const shard = cache?.open(number) ?? null;
    for (const index of indexes) {
      const name = files[index] ?? '';
      const path = resolve(cwd, name);
      const inputs = inputsOf.get(dirname(path));
      if (!inputs) throw new Error(`the inputs of ${name} were not looked up`);
      done(index, await judge({ path, name, named: named.has(name), inputs }, shard));
      if (performance.now() - paused >= pauseEvery) {
        await pause();
        paused = performance.now();
      }
      if (stopped()) break;
    }
    shard?.save();
    if (stopped()) return;
  }
};
