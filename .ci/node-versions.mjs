// Runs the same commands of the built program on several versions of Node, and compares every byte with what the version
// that runs this gives: what is printed, the exit codes, and the files that are left.
// Usage: node .ci/node-versions.mjs NODE... ; the last line is "N passed, N failed".
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const asOf = '--as-of 2026-03-02T18:00';

const reading = [
  `check "examples/*.yaml" examples/mistakes/shuttle-08.yaml none.yaml --format json ${asOf}`,
  `check examples/shuttle-07-left-rear-low.yaml --all --width 120 --color ${asOf}`,
  `next examples/shuttle-12-four-sensor-codes.yaml --all ${asOf}`,
  `sweep examples --remember --format html --out csv=sweep.csv ${asOf}`,
  'sweep examples --remember --only-changed --as-of 2026-03-05T10:00',
  'packs prove apron --rules rules',
  'completion bash',
  'check --help',
].map((words) => ({ words, stdin: '' }));

/** The first commands of the recorded page on typing. */
const writing = readFileSync(join(root, 'tests/scenarios/typing.txt'), 'utf8')
  .split(/^\$ /mu)
  .map((part) => /^(?:printf '([^']*)' \| )?cornerwise (.*)$/mu.exec(part.slice(0, part.indexOf('\n'))))
  .filter((match) => match !== null)
  .slice(0, 8)
  .map(([, stdin = '', words]) => ({ words, stdin: stdin.replaceAll('\\n', '\n') }));

const split = (words) => [...words.matchAll(/"([^"]*)"|(\S+)/gu)].map(([, quoted, bare]) => quoted ?? bare);

const filesBelow = (folder) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();

const ended = (program, argv, { input, ...options }) =>
  new Promise((resolve) => {
    const child = spawn(program, argv, options);
    const parts = { stdout: '', stderr: '' };
    for (const name of ['stdout', 'stderr']) {
      child[name].setEncoding('utf8');
      child[name].on('data', (text) => {
        parts[name] += text;
      });
    }
    child.on('error', (error) => resolve(String(error)));
    child.on('close', (code) => resolve(`${parts.stdout}\n${parts.stderr}\nexit ${code}`));
    child.stdin.on('error', () => undefined);
    child.stdin.end(input);
  });

/** All that the commands come to on one version: a name, and the bytes that belong to it. */
const run = async (node) => {
  const top = mkdtempSync(join(tmpdir(), 'cornerwise-nodes-'));
  try {
    cpSync(join(root, 'examples'), join(top, 'examples'), { recursive: true });
    cpSync(join(root, 'tests/scenarios/rules'), join(top, 'rules'), { recursive: true });
    // One clock for all versions.
    const clock = join(top, '.own-clock.cjs');
    writeFileSync(clock, 'Date.now = () => Date.UTC(2026, 2, 2, 18);\n');
    const env = {
      XDG_STATE_HOME: join(top, '.own/state'),
      XDG_CACHE_HOME: join(top, '.own/cache'),
      TZ: 'UTC',
    };
    const found = new Map();
    for (const { words, stdin } of [...reading, ...writing]) {
      const argv = ['--require', clock, join(root, 'bin/cornerwise.js'), ...split(words)];
      const text = await ended(node, argv, { cwd: top, env, input: stdin });
      found.set(words, text.replaceAll(top, '…'));
    }
    for (const path of filesBelow(top)) {
      const name = relative(top, path);
      if (!name.startsWith('.own')) found.set(`the file ${name}`, readFileSync(path, 'latin1'));
    }
    return found;
  } finally {
    rmSync(top, { recursive: true, force: true });
  }
};

const nodes = process.argv.slice(2).map((path) => resolve(path));
const [own, ...others] = await Promise.all([process.execPath, ...nodes].map(run));
const broken = [...own].filter(([, text]) => /\nexit (?!0$|1$|2$)/u.test(text));
if (broken.length > 0 || !own.has('the file examples/s24.yaml'))
  throw new Error(`the commands fail here already: ${broken.map(([words]) => words).join(', ')}`);
let passed = 0;
let failed = 0;
for (const [place, other] of others.entries()) {
  const version = spawnSync(nodes[place], ['--version'], { encoding: 'utf8' }).stdout?.trim() || nodes[place];
  const names = [...new Set([...own.keys(), ...other.keys()])];
  const different = names.filter((name) => own.get(name) !== other.get(name));
  for (const name of different) console.log(`Node ${version} differs from ${process.version}: ${name}`);
  console.log(
    `Node ${version}: ${names.length - different.length} of ${names.length} as on ${process.version}`,
  );
  passed += names.length - different.length;
  failed += different.length;
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
