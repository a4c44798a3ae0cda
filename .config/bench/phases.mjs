// Bundles the steps of a sweep with clocks between them, and prints where the time goes.
import { join } from 'node:path';
import { bundleBench } from './run-bundled.mjs';
import { figure, root, run, writeJobs } from './tools.mjs';

/** Steps that come after a job was read. */
const afterReading = ['judging', 'its line', 'JSON'];

export const phases = async (folder) => {
  const outfile = join(folder, 'phases.mjs');
  await bundleBench('phases/main.ts', outfile);
  const jobs = join(folder, 'phases');
  writeJobs(jobs, 2_000);
  const { stdout } = run([outfile, jobs, join(root, 'rules')], { keep: true });
  const spent = JSON.parse(stdout);
  const whole = Object.values(spent).reduce((sum, one) => sum + one, 0);
  console.log('\nWhere the time of a cold sweep goes, microseconds a job');
  for (const [name, time] of Object.entries(spent)) {
    console.log(
      `  ${name.padEnd(24)} ${time.toFixed(0).padStart(5)}  ${((time / whole) * 100).toFixed(0).padStart(3)} %`,
    );
  }
  const judging = afterReading.reduce((sum, name) => sum + (spent[name] ?? 0), 0);
  figure('everything after reading / all', judging / whole, { limit: 0.8, aim: 0.5 });
};
