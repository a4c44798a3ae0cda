// Run as a program: node code-cache.mjs DIST. Runs usual commands in this process, and writes beside each part of the
// bundle what Node compiled of it meanwhile.
import { writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const dist = resolve(process.argv[2]);
const root = fileURLToPath(new URL('..', import.meta.url));
const { makeLoader } = createRequire(import.meta.url)('../bin/load.cjs');
const { load, scripts } = makeLoader();
const { run } = load(join(dist, 'main.cjs'));

const io = {
  cwd: root,
  env: {},
  zone: 'UTC',
  now: () => Date.UTC(2026, 2, 2, 18),
  stdout: { write: () => undefined, isTerminal: false, columns: null },
  stderr: { write: (text) => process.stderr.write(text) },
  readStdin: async () => new Uint8Array(),
  readFile: async (path) => (await import('node:fs/promises')).readFile(path),
  isInteractive: false,
};

const job = 'examples/shuttle-07-left-rear-low.yaml';
for (const call of [['--help'], ['check', job, '--fail-on', 'never'], ['next', job]]) {
  const code = await run(call, io);
  if (code !== 0) throw new Error(`cornerwise ${call.join(' ')} ended with ${code}`);
}
for (const [file, script] of scripts) await writeFile(`${file}.cache`, script.createCachedData());
