// `npm run bench`: how long whole commands take, in alternating rounds; prints medians, and ratios of CPU time. Each
// figure has a limit, which catches regressions and leaves room for a busy machine, and an aim, which is only printed.
// The exit code is 1 where a limit is missed. BENCH_ROUNDS sets the rounds; BENCH_ONLY names parts, among them `peers`,
// which is left out otherwise since it installs other programs.
//
// `BENCH_AGAINST=/path/to/checkout npm run bench -- pairs` compares with another checkout that is built.
import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { night } from './night.mjs';
import { pairs } from './pairs.mjs';
import { peerPairs } from './peers.mjs';
import { phases } from './phases.mjs';
import { start } from './start.mjs';
import { sweeps } from './sweep.mjs';
import { missed } from './tools.mjs';
import { typing } from './typing.mjs';
import { worst } from './worst.mjs';

const rounds = Number(process.env.BENCH_ROUNDS ?? 3);
const only = process.env.BENCH_ONLY?.split(',') ?? ['start', 'typing', 'sweep', 'night', 'worst', 'phases'];
const against = process.env.BENCH_AGAINST;
const comparing = process.argv[2] === 'pairs';
if (comparing && !against) throw new Error('pairs needs BENCH_AGAINST=/path/to/checkout');
const folder = mkdtempSync(join(tmpdir(), 'cornerwise-bench-'));

console.log(`Node ${process.version}, ${cpus().length} cores`);
try {
  if (comparing) pairs(folder, resolve(against), rounds);
  else {
    if (only.includes('start')) start(rounds * 4);
    if (only.includes('typing')) await typing(folder, rounds * 2);
    if (only.includes('sweep')) sweeps(folder, rounds);
    if (only.includes('night')) await night(folder, rounds);
    if (only.includes('worst')) await worst(folder);
    if (only.includes('phases')) await phases(folder);
    if (only.includes('peers')) peerPairs(folder, rounds);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
const over = missed();
if (!comparing)
  console.log(over.length === 0 ? '\nEvery limit is kept.' : `\nOver the limit: ${over.join('; ')}`);
process.exitCode = over.length === 0 ? 0 : 1;
