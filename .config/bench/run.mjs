// `npm run bench`: how long whole commands take, as a user waits for them, in alternating rounds; medians are told. Ends
// with exit code 1 where a figure is not reached. BENCH_ROUNDS sets the rounds, BENCH_ONLY names parts of it.
import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { peerPairs } from './peers.mjs';
import { phases } from './phases.mjs';
import { start } from './start.mjs';
import { growth, sweeps } from './sweep.mjs';
import { missed } from './tools.mjs';
import { typing } from './typing.mjs';

const rounds = Number(process.env.BENCH_ROUNDS ?? 5);
const only = process.env.BENCH_ONLY?.split(',') ?? ['start', 'typing', 'sweep', 'growth', 'phases', 'peers'];
const folder = mkdtempSync(join(tmpdir(), 'cornerwise-bench-'));

console.log(`Node ${process.version}, ${cpus().length} cores`);
try {
  if (only.includes('start')) start(rounds * 4);
  if (only.includes('typing')) typing(folder, rounds * 2);
  if (only.includes('sweep') || only.includes('growth')) {
    const { many } = sweeps(folder, rounds);
    if (only.includes('growth')) growth(folder, many, 1);
  }
  if (only.includes('phases')) await phases(folder);
  if (only.includes('peers')) peerPairs(folder, rounds);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
const left = missed();
console.log(left.length === 0 ? '\nEvery figure is reached.' : `\nNot reached: ${left.join('; ')}`);
process.exitCode = left.length === 0 ? 0 : 1;
