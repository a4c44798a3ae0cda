// A thread for tests of the pool: the name of a file tells what becomes of it.
const { parentPort, workerData } = require('node:worker_threads');

const flags = new Int32Array(workerData.shared);
if (workerData.settings.program === 'dies at once') process.exit(4);

parentPort.on('message', ({ files }) => {
  const done = [];
  for (const { index, name } of files) {
    if (Atomics.load(flags, 1) === 1) break;
    Atomics.store(flags, 0, index);
    if (name === 'dies') process.exit(9);
    if (name === 'throws') throw new Error('thrown by the test');
    if (name === 'hangs') for (;;);
    if (name === 'stops') Atomics.store(flags, 1, 1);
    if (name === 'eats') for (const all = []; ; ) all.push(new Array(1e5).fill(index));
    done.push({ index, kind: 'closed' });
  }
  Atomics.store(flags, 0, -1);
  parentPort.postMessage(done);
});
