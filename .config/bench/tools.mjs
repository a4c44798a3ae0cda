// What the benchmarks share: whole processes in alternating rounds, medians, a line a figure.
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { makeJob } from './make-job.mjs';

export const root = join(dirname(fileURLToPath(import.meta.url)), '../..');
export const bin = join(root, 'bin/cornerwise.js');

export const median = (values) => {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
};

/** Runs a process to its end: wall time in milliseconds, and the most memory that it had at once in MB. */
export const run = (args, { cwd = root, env = {}, codes = [0], program = process.execPath } = {}) => {
  const hook = pathToFileURL(join(root, '.config/bench/peak-memory.mjs')).href;
  const memory = env.BENCH_MEMORY ? ['--import', hook] : [];
  const started = process.hrtime.bigint();
  const { status, stderr, output, error } = spawnSync(program, [...memory, ...args], {
    cwd,
    env: { ...process.env, ...env },
    encoding: 'utf8',
    maxBuffer: 1 << 30,
    stdio: ['ignore', env.BENCH_KEEP ? 'pipe' : 'ignore', 'pipe', 'pipe'],
  });
  const milliseconds = Number(process.hrtime.bigint() - started) / 1e6;
  if (error) throw error;
  if (!codes.includes(status)) throw new Error(`${args.join(' ')} ended with ${status}: ${stderr}`);
  return { milliseconds, megabytes: Number(output[3] || 0) / 1024, stdout: output[1] };
};

/**
 * Takes turns at several things, so that a busy moment of the machine meets all of them.
 *
 * @param things name to a function that gives milliseconds
 * @returns name to all its times; the first round warms the disk's cache and is not among them
 */
export const alternate = (things, rounds) => {
  const times = Object.fromEntries(Object.keys(things).map((name) => [name, []]));
  for (let round = -1; round < rounds; round += 1) {
    for (const [name, take] of Object.entries(things)) {
      const milliseconds = take(round);
      if (round >= 0) times[name].push(milliseconds);
    }
  }
  return times;
};

/** The median of the ratios, pair by pair. */
export const ratioOf = (times, name, to) => median(times[name].map((one, round) => one / times[to][round]));

const results = [];

/** Prints a figure beside its target, and keeps whether it was reached. */
export const figure = (what, value, target, { atLeast = false, unit = '' } = {}) => {
  const reached = atLeast ? value >= target : value <= target;
  results.push({ what, reached });
  const word = atLeast ? 'at least' : 'at most';
  console.log(
    `  ${reached ? 'reached ' : 'NOT REACHED'} ${what}: ${value.toFixed(2)}${unit} (${word} ${target}${unit})`,
  );
};

export const told = (times) => {
  for (const [name, all] of Object.entries(times)) {
    console.log(`  ${name.padEnd(44)} ${median(all).toFixed(0).padStart(7)} ms`);
  }
};

export const missed = () => results.filter(({ reached }) => !reached).map(({ what }) => what);

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
