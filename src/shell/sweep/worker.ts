import { parentPort, workerData } from 'node:worker_threads';
import { realIo } from '../io.ts';
import { type Batch, batchJudge, type SweepSettings } from './batch.ts';

/** What a worker is started with. */
export interface WorkerStart {
  readonly settings: SweepSettings;
  /** Two numbers of 32 bits: the file that is being judged, and whether to stop. */
  readonly shared: SharedArrayBuffer;
}

const { settings, shared } = workerData as WorkerStart;
const flags = new Int32Array(shared);
const io = { ...realIo(), cwd: settings.cwd };
const judge = batchJudge(settings, io);

parentPort?.on('message', async (batch: Batch) => {
  const done = await judge(batch, {
    before: (index) => {
      Atomics.store(flags, 0, index);
    },
    stopped: () => Atomics.load(flags, 1) === 1,
  });
  Atomics.store(flags, 0, -1);
  parentPort?.postMessage(done);
});
