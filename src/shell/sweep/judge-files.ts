import { availableParallelism } from 'node:os';
import type { Io } from '../io.ts';
import { partLoader, workerScript } from '../package-folder.ts';
import { type Batch, batchJudge, type Done, type SweepSettings } from './batch.ts';
import { bucketOf } from './cache.ts';
import { openPool } from './pool.ts';

/**
 * From so many files on a second thread gains more than its start costs: each has to be compiled anew while it judges
 * its first thousand.
 */
const worthThreads = 8_000;
/** More threads than this wait for the disk and for the one that prints. */
const mostThreads = 4;
/** How long a file may take in a thread of its own, in milliseconds. */
const patience = 60_000;
/** How often whoever waits is told, and Ctrl-C is heard, in milliseconds. */
const breath = 50;

export interface Judging {
  /** As they are printed. */
  readonly files: readonly string[];
  readonly named: ReadonlySet<string>;
  readonly settings: SweepSettings;
  /** How many threads; null where the number of files is to decide. 1 is this one. */
  readonly workers: number | null;
  readonly done: (done: readonly Done[]) => void;
}

/** Judging that is under way. */
export interface Underway {
  /** Settles when all files are judged, or those that had begun when it was stopped. */
  readonly finished: Promise<void>;
  readonly stop: () => void;
}

/** The files by the part of the cache that serves them; a batch is made when it is asked for. */
function* batchesOf(files: readonly string[], named: ReadonlySet<string>): Generator<Batch> {
  const bucketsOf = Uint16Array.from(files, bucketOf);
  const order = Uint32Array.from(files, (_, index) => index).sort(
    (a, b) => (bucketsOf[a] ?? 0) - (bucketsOf[b] ?? 0) || a - b,
  );
  for (let from = 0, to = 0; from < order.length; from = to) {
    const bucket = bucketsOf[order[from] ?? 0] ?? 0;
    while (to < order.length && bucketsOf[order[to] ?? 0] === bucket) to += 1;
    const some = Array.from(order.subarray(from, to), (index) => {
      const name = files[index] ?? '';
      return { index, name, named: named.has(name) };
    });
    yield { bucket, files: some };
  }
}

const threadCount = (files: number): number =>
  files < worthThreads ? 1 : Math.min(availableParallelism(), mostThreads);

const turnOfOthers = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

const inThisThread = (batches: Iterable<Batch>, { settings, done }: Judging, io: Io): Underway => {
  let stopped = false;
  const run = async (): Promise<void> => {
    const judge = batchJudge(settings, io);
    let last = performance.now();
    for (const batch of batches) {
      if (stopped) return;
      done(await judge(batch, { before: () => {}, stopped: () => stopped }));
      if (performance.now() - last < breath) continue;
      await turnOfOthers();
      last = performance.now();
    }
  };
  return {
    finished: run(),
    stop: () => {
      stopped = true;
    },
  };
};

/** What a thread runs: its part of the program, with what was compiled of it ahead. */
const threadText = (): string =>
  `require(${JSON.stringify(partLoader())}).load(${JSON.stringify(workerScript())})`;

/** Judges the files of a sweep, here or in threads; what is done comes in whatever order. */
export const judgeFiles = (judging: Judging, io: Io): Underway => {
  const { files, named, settings, done } = judging;
  const batches = batchesOf(files, named);
  const count = Math.max(1, Math.min(judging.workers ?? threadCount(files.length), files.length));
  if (count === 1) return inThisThread(batches, judging, io);
  const pool = openPool({ script: threadText(), count, settings, patience, done });
  return { finished: pool.run(batches), stop: pool.stop };
};
