// How long `add` takes beside `check` on a long job.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { makeJob } from './make-job.mjs';
import { alternate, bin, figure, ratioOf, run, told } from './tools.mjs';

/** `add` against `check` on one file of 200 snapshots; `add` begins with the same file every time. */
export const typing = (folder, rounds) => {
  const text = makeJob(200);
  const file = join(folder, 's7.yaml');
  const env = { XDG_STATE_HOME: join(folder, 'state') };
  const asOf = ['--as-of', '2026-03-02T18:00'];
  const reading = ['battery=14.2', 'LF=2.48', 'RF=2.55', 'LR=2.41', 'RR=2.62'];
  const timed = (args) => {
    writeFileSync(file, text);
    return run([bin, ...args, ...asOf], { cwd: folder, env });
  };
  console.log(`\nA job of 200 snapshots, ${Math.round(text.length / 1024)} KiB, ${rounds} rounds`);
  const times = alternate(
    {
      check: () => timed(['check', 's7.yaml', '--fail-on', 'never']),
      add: () => timed(['add', 's7.yaml', 'running', ...reading]),
    },
    rounds,
  );
  told(times);
  figure('add / check', ratioOf(times, 'add', 'check'), { limit: 2, aim: 1.5 });
};
