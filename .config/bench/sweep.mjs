// How long a sweep takes over many jobs, with nothing kept and with nothing changed, and how much memory it has.
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { parse } from 'yaml';
import { alternate, bin, figure, medianOf, ratioOf, run, told, writeJobs } from './tools.mjs';

const yardstick = new URL('yardstick.mjs', import.meta.url).pathname;

/** The same data as JSON, file by file. */
const writeJson = (files, from, to) => {
  for (const file of files) {
    const path = join(to, relative(from, file).replace(/yaml$/u, 'json'));
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, JSON.stringify(parse(readFileSync(file, 'utf8'))));
  }
};

/** A sweep of a folder with a cache of its own. */
export const sweepOf = (folder, cache, asOf = '2026-03-02T18:00') => {
  const env = { XDG_CACHE_HOME: cache };
  const options = ['--format', 'ndjson', '--as-of', asOf, '--fail-on', 'never'];
  return () => run([bin, 'sweep', folder, ...options], { env });
};

/** A sweep that finds nothing in the cache. */
export const cold = (sweep, cache) => () => {
  rmSync(cache, { recursive: true, force: true });
  return sweep();
};

export const sweeps = (folder, rounds) => {
  const [few, many] = [join(folder, 'few'), join(folder, 'many')];
  writeJobs(few, 2_000);
  writeJson(writeJobs(many, 10_000), many, join(folder, 'json'));
  const cache = join(folder, 'cache');

  console.log(`\n2 000 jobs, ${rounds} rounds`);
  const small = alternate(
    {
      'read and parse with yaml (Y2)': () => run([yardstick, 'yaml', few]),
      'sweep, nothing kept': cold(sweepOf(few, cache), cache),
    },
    rounds,
  );
  told(small);
  figure('cold sweep / Y2', ratioOf(small, 'sweep, nothing kept', 'read and parse with yaml (Y2)'), {
    limit: 2.6,
    aim: 0.3,
  });

  console.log(`\n10 000 jobs, ${rounds} rounds`);
  const sweep = sweepOf(many, cache);
  const large = alternate(
    {
      'read and JSON.parse (Y3)': () => run([yardstick, 'json', join(folder, 'json')]),
      'read and hash': () => run([yardstick, 'hash', many]),
      'sweep, nothing kept': cold(sweep, cache),
      'sweep, nothing changed': () => sweep(),
    },
    rounds,
  );
  told(large);
  figure('cold sweep / Y3', ratioOf(large, 'sweep, nothing kept', 'read and JSON.parse (Y3)'), {
    limit: 24,
    aim: 5,
  });
  figure('cold / nothing changed', ratioOf(large, 'sweep, nothing kept', 'sweep, nothing changed'), {
    limit: 3.5,
    aim: 8,
    atLeast: true,
  });
  figure('nothing changed / read and hash', ratioOf(large, 'sweep, nothing changed', 'read and hash'), {
    limit: 4,
    aim: 3,
  });
  const growth =
    medianOf(large['sweep, nothing kept'], 'cpu') / medianOf(small['sweep, nothing kept'], 'cpu');
  figure('cold sweep of 10 000 / of 2 000', growth, { limit: 6, aim: 5 });
  figure('memory at 10 000', medianOf(large['sweep, nothing kept'], 'megabytes'), {
    limit: 240,
    aim: 200,
    unit: ' MB',
  });
};
