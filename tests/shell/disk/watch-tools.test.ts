import { spawn } from 'node:child_process';
import { rm } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bundle, openFolder } from '../save/bundled.ts';

/** Stops for nobody: what it is at never ends. */
const busy = `
import { systemTools } from './src/shell/disk/watch-tools.ts';
systemTools.onStop(() => console.log('stopping'));
setInterval(() => undefined, 1000);
console.log('ready');`;

let folder = '';
let start = '';

beforeAll(async () => {
  folder = await openFolder();
  start = await bundle(folder, busy);
});

afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

describe('a program that was asked to stop', () => {
  it.each([
    ['SIGINT', 'SIGINT'],
    ['SIGTERM', 'SIGTERM'],
  ] as const)('by %s is ended by a second %s', async (first, second) => {
    const child = spawn(process.execPath, [start], { stdio: ['ignore', 'pipe', 'inherit'] });
    let said = '';
    child.stdout.on('data', (text: Buffer) => {
      said += text.toString();
      if (said === 'ready\n') child.kill(first);
      if (said === 'ready\nstopping\n') child.kill(second);
    });
    const signal = await new Promise((resolve) => {
      child.on('exit', (_, by) => resolve(by));
    });
    expect([said, signal]).toEqual(['ready\nstopping\n', second]);
  });
});
