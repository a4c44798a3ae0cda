// What the benchmarks share: whole processes in alternating rounds, medians, a line a figure.
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { makeJob } from './make-job.mjs';

export const root = join(dirname(fileURLToPath(import.meta.url)), '../..');
export const bin = join(root, 'bin/cornerwise.js');

const median = (values) => {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
};

/**
 * Runs a Node program to its end.
 *
 * @returns wall and CPU time in milliseconds, the most memory that it used at once in MB, and its standard output where
 * `keep` is set
 * @param options `codes` are the exit codes with which it may end
 */
export const run = (args, { cwd = root, env = {}, keep = false, codes = [0] } = {}) => {
  const hook = ['--require', join(root, '.config/bench/resource-usage.cjs')];
  const started = process.hrtime.bigint();
  const { status, stderr, output, error } = spawnSync(process.execPath, [...hook, ...args], {
    cwd,
    env: { ...process.env, ...env },
    encoding: 'utf8',
    maxBuffer: 1 << 30,
    stdio: ['ignore', keep ? 'pipe' : 'ignore', 'pipe', 'pipe'],
  });
  const milliseconds = Number(process.hrtime.bigint() - started) / 1e6;
  if (error) throw error;
  if (!codes.includes(status)) throw new Error(`${args.join(' ')} ended with ${status}: ${stderr}`);
  const [memory, cpu] = (output[3] ?? '').split(' ').map(Number);
  return { milliseconds, cpu: cpu / 1000, megabytes: memory / 1024, stdout: output[1] };
};

/**
 * Takes turns at several things, so that a busy moment of the machine meets all of them.
 *
 * @param things name to a function that runs a process
 * @returns name to all its runs; the first round warms the disk's cache and is not among them
 */
export const alternate = (things, rounds) => {
  const runs = Object.fromEntries(Object.keys(things).map((name) => [name, []]));
  for (let round = -1; round < rounds; round += 1) {
    for (const [name, take] of Object.entries(things)) {
      const one = take();
      if (round >= 0) runs[name].push(one);
    }
  }
  return runs;
};

/**
 * The median of the ratios, pair by pair; of CPU time, which other work on the machine disturbs less than wall time.
 *
 * @param key `cpu` or `milliseconds`
 */
export const ratioOf = (runs, name, to, key = 'cpu') =>
  median(runs[name].map((one, round) => one[key] / runs[to][round][key]));

/** The median of one figure of some runs. */
export const medianOf = (runs, key) => median(runs.map((one) => one[key]));

const results = [];

/**
 * Prints a figure beside its limit and its aim, and notes whether the limit is kept.
 *
 * @param bounds `limit` holds off regressions, `aim` is only printed; both are the most that the figure may be, or the
 * least with `atLeast`
 */
export const figure = (what, value, { limit, aim, atLeast = false, unit = '' }) => {
  const within = (bound) => (atLeast ? value >= bound : value <= bound);
  results.push({ what, kept: within(limit) });
  const word = atLeast ? 'at least' : 'at most';
  console.log(
    `  ${within(limit) ? 'ok  ' : 'OVER'} ${what}: ${value.toFixed(2)}${unit} (limit ${word} ${limit}${unit}; aim ${aim}${unit}${within(aim) ? '' : ', not reached'})`,
  );
};

/** Prints the medians of all runs. */
export const told = (runs) => {
  for (const [name, all] of Object.entries(runs)) {
    const [wall, cpu] = ['milliseconds', 'cpu'].map((key) => medianOf(all, key).toFixed(0).padStart(7));
    console.log(`  ${name.padEnd(44)} ${wall} ms, CPU ${cpu} ms`);
  }
};

export const missed = () => results.filter(({ kept }) => !kept).map(({ what }) => what);

/** Writes `count` jobs of 3 to 10 snapshots into a folder, a thousand to a folder below it. */
export const writeJobs = (folder, count) => {
  const names = [];
  for (let index = 0; index < count; index += 1) {
    const part = `part-${String(Math.floor(index / 1000)).padStart(3, '0')}`;
    if (index % 1000 === 0) mkdirSync(join(folder, part), { recursive: true });
    const text = makeJob(3 + (index % 8), index + 1).replace('S07-9000', `S07-${100_000 + index}`);
    const name = join(folder, part, `s${String(index).padStart(6, '0')}.yaml`);
    writeFileSync(name, text);
    names.push(name);
  }
  return names;
};
