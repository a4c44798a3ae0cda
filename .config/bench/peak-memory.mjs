// Loaded before a program that is measured: tells the most memory that it had at once, in KiB, on the fourth stream.
import { writeSync } from 'node:fs';
import { isMainThread } from 'node:worker_threads';

if (isMainThread) process.on('exit', () => writeSync(3, String(process.resourceUsage().maxRSS)));
