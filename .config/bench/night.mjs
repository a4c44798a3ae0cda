// How long a night's sweep of a shop takes: 400 jobs, a third of them with a fault, with nothing kept and nothing changed.
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { bundleBench } from './run-bundled.mjs';
import { cold, sweepOf } from './sweep.mjs';
import { alternate, figure, medianOf, root, run, told } from './tools.mjs';

const jobs = 400;

export const night = async (folder, rounds) => {
  const outfile = join(folder, 'write-fleet.mjs');
  await bundleBench('suspects/write-fleet.ts', outfile);
  const fleet = join(folder, 'fleet');
  mkdirSync(fleet, { recursive: true });
  run([outfile, fleet, String(jobs), join(root, 'rules')]);
  console.log(`\n${jobs} jobs, a third with a fault, ${rounds} rounds`);
  const cache = join(folder, 'night-cache');
  const sweep = sweepOf(fleet, cache, '2026-03-03T20:00');
  const times = alternate(
    { 'sweep, nothing kept': cold(sweep, cache), 'sweep, nothing changed': () => sweep() },
    rounds,
  );
  told(times);
  figure("a night's sweep, CPU", medianOf(times['sweep, nothing kept'], 'cpu') / 1000, {
    limit: 8,
    aim: 3,
    unit: ' s',
  });
};
