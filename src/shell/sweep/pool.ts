import { Worker } from 'node:worker_threads';
import type { Batch, Done, SweepSettings } from './batch.ts';
import type { WorkerStart } from './worker.ts';

export interface PoolOptions {
  /** What the threads run, as the text of a CommonJS module. */
  readonly script: string;
  readonly count: number;
  readonly settings: SweepSettings;
  /** A file that takes longer than this is given up, in milliseconds. */
  readonly patience: number;
  /** Called with each batch's results, in whatever order they come. */
  readonly done: (done: readonly Done[]) => void;
}

/** Threads that judge batches. */
export interface Pool {
  /** Judges all of them, or as many as are begun when it is stopped. */
  readonly run: (batches: Iterable<Batch>) => Promise<void>;
  readonly stop: () => void;
}

interface Thread {
  readonly worker: Worker;
  readonly flags: Int32Array;
  batch: Batch | null;
  /** When it was last seen to begin another file, and which. */
  since: number;
  seen: number;
  /** Why it was ended by us. */
  ended: string | null;
}

/** More memory than any job wants; a file that wants more ends its thread and not the sweep. */
const limits = { maxOldGenerationSizeMb: 160, maxYoungGenerationSizeMb: 16 };

/** A thread that dies this often without having begun a file is no file's fault. */
const mostIdleDeaths = 3;

const diedOf = (index: number, why: string): Done => ({
  index,
  kind: 'problems',
  problems: [
    {
      code: 'worker-died',
      message: `judging this file ended the thread that did it: ${why}`,
      line: null,
      column: null,
      hint: 'the other files were judged all the same; see whether this is the file that was meant',
    },
  ],
});

/**
 * Starts threads as work comes. One that dies is replaced; the file that it died of is named, and the others of its
 * batch are judged again.
 */
export const openPool = ({ script, count, settings, patience, done }: PoolOptions): Pool => {
  const threads = new Set<Thread>();
  const again: Batch[] = [];
  let waiting: Iterator<Batch> = [][Symbol.iterator]();
  let stopped = false;
  let idleDeaths = 0;
  let settle: { resolve: () => void; reject: (error: Error) => void } | null = null;

  const nextBatch = (): Batch | null => {
    if (stopped) return null;
    const batch = again.pop();
    if (batch) return batch;
    const next = waiting.next();
    return next.done ? null : next.value;
  };

  const feed = (thread: Thread): void => {
    thread.batch = nextBatch();
    thread.since = performance.now();
    if (thread.batch) thread.worker.postMessage(thread.batch);
    else {
      threads.delete(thread);
      // Ending it counts as no death: it is no longer among the threads.
      void thread.worker.terminate();
      if (threads.size === 0) settle?.resolve();
    }
  };

  const died = (thread: Thread, why: string): void => {
    if (!threads.delete(thread)) return;
    const { batch, flags } = thread;
    const index = Atomics.load(flags, 0);
    const culprit = batch?.files.find((file) => file.index === index);
    if (batch && culprit) {
      done([diedOf(index, thread.ended ?? why)]);
      again.push({ ...batch, files: batch.files.filter((file) => file !== culprit) });
    } else {
      idleDeaths += 1;
      if (batch) again.push(batch);
      if (idleDeaths >= mostIdleDeaths) {
        settle?.reject(new Error(`threads end before they judge anything: ${why}`));
        return;
      }
    }
    start();
  };

  const start = (): void => {
    const shared = new SharedArrayBuffer(8);
    const flags = new Int32Array(shared);
    flags[0] = -1;
    if (stopped) flags[1] = 1;
    const workerData: WorkerStart = { settings, shared };
    const worker = new Worker(script, { eval: true, workerData, resourceLimits: limits });
    const thread: Thread = { worker, flags, batch: null, since: performance.now(), seen: -1, ended: null };
    threads.add(thread);
    worker.on('message', (results: readonly Done[]) => {
      done(results);
      feed(thread);
    });
    worker.on('error', (error) => died(thread, error instanceof Error ? error.message : String(error)));
    worker.on('exit', (code) => died(thread, `it ended with code ${code}`));
    feed(thread);
  };

  /** Ends threads that have been at one file for too long. */
  const look = (): void => {
    const now = performance.now();
    for (const thread of threads) {
      const index = Atomics.load(thread.flags, 0);
      if (index !== thread.seen || index < 0) {
        thread.seen = index;
        thread.since = now;
      } else if (now - thread.since > patience && thread.ended === null) {
        thread.ended = `it took longer than ${Math.round(patience / 1000)} s`;
        void thread.worker.terminate();
      }
    }
  };

  return {
    run: async (batches) => {
      waiting = batches[Symbol.iterator]();
      const timer = setInterval(look, Math.min(1000, patience / 2));
      try {
        await new Promise<void>((resolve, reject) => {
          settle = { resolve, reject };
          for (let index = 0; index < count; index += 1) start();
        });
      } finally {
        clearInterval(timer);
        for (const { worker } of threads) void worker.terminate();
      }
    },
    stop: () => {
      stopped = true;
      for (const { flags } of threads) Atomics.store(flags, 1, 1);
    },
  };
};
