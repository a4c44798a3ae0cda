// `npm run bench`: how long whole commands take, as a user waits for them. Pairs alternate, so that a busy moment of
// the machine meets both; medians are told. Ends with exit code 1 where a figure is not reached.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { makeJob } from './make-job.mjs';

const bin = join(dirname(fileURLToPath(import.meta.url)), '../../bin/cornerwise.js');
const rounds = Number(process.env.BENCH_ROUNDS ?? 25);
const folder = mkdtempSync(join(tmpdir(), 'cornerwise-bench-'));
const env = { ...process.env, XDG_STATE_HOME: join(folder, 'state') };

const run = (args) => {
  const started = process.hrtime.bigint();
  const { status, stderr } = spawnSync(process.execPath, [bin, ...args], {
    cwd: folder,
    env,
    encoding: 'utf8',
  });
  const milliseconds = Number(process.hrtime.bigint() - started) / 1e6;
  if (status !== 0) throw new Error(`cornerwise ${args.join(' ')} ended with ${status}: ${stderr}`);
  return milliseconds;
};

const median = (values) => {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
};

/** `add` against `check` on one file of 200 snapshots; `add` begins with the same file every time. */
const addAgainstCheck = () => {
  const text = makeJob(200);
  const file = join(folder, 's7.yaml');
  const asOf = ['--as-of', '2026-03-02T18:00'];
  const reading = ['battery=14.2', 'LF=2.48', 'RF=2.55', 'LR=2.41', 'RR=2.62'];
  const check = [];
  const add = [];
  for (let round = -2; round < rounds; round += 1) {
    writeFileSync(file, text);
    const checked = run(['check', 's7.yaml', ...asOf, '--fail-on', 'never']);
    const added = run(['add', 's7.yaml', 'running', ...reading, ...asOf]);
    // The first rounds warm the disk's cache.
    if (round >= 0) {
      check.push(checked);
      add.push(added);
    }
  }
  const ratio = median(add.map((one, index) => one / check[index]));
  console.log(
    `a job of 200 snapshots, ${Math.round(text.length / 1024)} KiB, ${rounds} alternating pairs of whole processes`,
  );
  console.log(`  check    ${median(check).toFixed(0)} ms`);
  console.log(`  add      ${median(add).toFixed(0)} ms`);
  console.log(`  add / check, median of the pairs: ${ratio.toFixed(2)} (to be under 1.50)`);
  return ratio < 1.5;
};

console.log(`Node ${process.version}, ${cpus().length} cores`);
let reached = false;
try {
  reached = addAgainstCheck();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
process.exitCode = reached ? 0 : 1;
