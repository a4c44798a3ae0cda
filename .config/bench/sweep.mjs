// How long a sweep takes over many jobs, with nothing kept and with nothing changed, and how much memory it has.
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { parse } from 'yaml';
import { alternate, bin, figure, median, ratioOf, run, told, writeJobs } from './tools.mjs';

const yardstick = new URL('yardstick.mjs', import.meta.url).pathname;
const asOf = ['--as-of', '2026-03-02T18:00', '--fail-on', 'never'];

/** The same data as JSON, file by file. */
const writeJson = (files, from, to) => {
  for (const file of files) {
    const path = join(to, relative(from, file).replace(/yaml$/u, 'json'));
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, JSON.stringify(parse(readFileSync(file, 'utf8'))));
  }
};

const sweepOf = (folder, cache, more = []) => {
  const env = { XDG_CACHE_HOME: cache };
  return (extra = {}) =>
    run([bin, 'sweep', folder, '--format', 'ndjson', ...asOf, ...more], { env: { ...env, ...extra } });
};

/** A sweep that finds nothing kept. */
const cold = (sweep, cache) => () => {
  rmSync(cache, { recursive: true, force: true });
  return sweep().milliseconds;
};

export const sweeps = (folder, rounds) => {
  const [few, many] = [join(folder, 'few'), join(folder, 'many')];
  writeJobs(few, 2_000);
  writeJson(writeJobs(many, 10_000), many, join(folder, 'json'));
  const cache = join(folder, 'cache');

  console.log(`\n2 000 jobs, one thread, ${rounds} rounds`);
  const one = sweepOf(few, cache, ['--workers', '1']);
  const small = alternate(
    {
      'read and parse with yaml (Y2)': () => run([yardstick, 'yaml', few]).milliseconds,
      'sweep, nothing kept': cold(one, cache),
    },
    rounds,
  );
  told(small);
  figure('cold sweep / Y2', ratioOf(small, 'sweep, nothing kept', 'read and parse with yaml (Y2)'), 0.3);

  console.log(`\n10 000 jobs, ${rounds} rounds`);
  const two = sweepOf(many, cache, ['--workers', '2']);
  const single = sweepOf(many, cache, ['--workers', '1']);
  const large = alternate(
    {
      'read and JSON.parse (Y3)': () => run([yardstick, 'json', join(folder, 'json')]).milliseconds,
      'read and hash': () => run([yardstick, 'hash', many]).milliseconds,
      'sweep, nothing kept, one thread': cold(single, cache),
      'sweep, nothing kept, two threads': cold(two, cache),
      'sweep, nothing changed, one thread': () => single().milliseconds,
      'sweep, nothing changed, two threads': () => two().milliseconds,
    },
    rounds,
  );
  told(large);
  figure(
    'cold sweep, two threads / Y3',
    ratioOf(large, 'sweep, nothing kept, two threads', 'read and JSON.parse (Y3)'),
    5,
  );
  figure(
    'cold / nothing changed, one thread',
    ratioOf(large, 'sweep, nothing kept, one thread', 'sweep, nothing changed, one thread'),
    8,
    { atLeast: true },
  );
  figure(
    'nothing changed / read and hash',
    ratioOf(large, 'sweep, nothing changed, one thread', 'read and hash'),
    3,
  );
  return { few, many };
};

/** Memory and time as the jobs become ten times as many. */
export const growth = (folder, many, rounds) => {
  const most = join(folder, 'most');
  writeJobs(most, 100_000);
  const cache = join(folder, 'cache');
  const measure = (jobs) => {
    rmSync(cache, { recursive: true, force: true });
    return sweepOf(jobs, cache)({ BENCH_MEMORY: '1' });
  };
  const runs = { ten: [], hundred: [] };
  for (let round = 0; round < rounds; round += 1) {
    runs.ten.push(measure(many));
    runs.hundred.push(measure(most));
  }
  const of = (name, key) => median(runs[name].map((one) => one[key]));
  console.log(`\n10 000 and 100 000 jobs, nothing kept, threads by default, ${rounds} rounds`);
  for (const [name, count] of [
    ['ten', '10 000'],
    ['hundred', '100 000'],
  ]) {
    console.log(
      `  ${count.padStart(7)} jobs: ${(of(name, 'milliseconds') / 1000).toFixed(2)} s, ${of(name, 'megabytes').toFixed(0)} MB`,
    );
  }
  figure('memory at 10 000', of('ten', 'megabytes'), 200, { unit: ' MB' });
  figure('memory at 100 000 / at 10 000', of('hundred', 'megabytes') / of('ten', 'megabytes'), 1.3);
  figure('time at 100 000 / at 10 000', of('hundred', 'milliseconds') / of('ten', 'milliseconds'), 10.5);
};
