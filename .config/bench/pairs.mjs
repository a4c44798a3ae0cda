// Compares this checkout with another one in alternating pairs of whole commands. Both must be built.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { alternate, bin, medianOf, ratioOf, root, run, writeJobs } from './tools.mjs';

const asOf = ['--as-of', '2026-03-02T18:00', '--fail-on', 'never'];

/** Writes jobs of which every third has a corner pinned low. */
const writeMixedJobs = (folder, count) => {
  for (const [index, file] of writeJobs(folder, count).entries()) {
    if (index % 3 !== 0) continue;
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replace(/LR: [\d.]+ V/u, 'LR: 0.10 V'));
  }
};

const sweepOf = (folder) => ['sweep', folder, '--no-cache', '--format', 'ndjson', ...asOf];

/**
 * Prints how long commands take here and there, and the ratio. CPU time varies less than wall time on a busy machine.
 *
 * @param against the path of the other checkout
 * @param rounds pairs of the shortest command; longer ones have fewer
 */
export const pairs = (folder, against, rounds) => {
  const [few, many] = [join(folder, 'few'), join(folder, 'many')];
  writeMixedJobs(few, 400);
  writeMixedJobs(many, 5_000);
  const example = join(root, 'examples/shuttle-07-left-rear-low.yaml');
  const commands = [
    ['check, one job', ['check', example, ...asOf], rounds * 4],
    ['sweep, 400 jobs', sweepOf(few), rounds * 2],
    ['sweep, 5 000 jobs', sweepOf(many), rounds],
  ];
  console.log(`\nThis checkout beside ${against}: median time, and the median ratio of the pairs`);
  for (const [name, args, count] of commands) {
    const runs = alternate(
      {
        here: () => run([bin, ...args]),
        there: () => run([join(against, 'bin/cornerwise.js'), ...args]),
      },
      count,
    );
    const [here, there] = [runs.here, runs.there].map((all) =>
      medianOf(all, 'milliseconds').toFixed(0).padStart(6),
    );
    const [wall, cpu] = ['milliseconds', 'cpu'].map((key) => ratioOf(runs, 'here', 'there', key).toFixed(2));
    console.log(`  ${name.padEnd(20)} ${here} ms ${there} ms   wall ${wall}, CPU ${cpu} (${count} pairs)`);
  }
};
