import { execFile } from 'node:child_process';
import { cp, mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

/**
 * The guards of the core's purity and of the one way to files and streams, each shown to bite on files that it alone
 * catches. Each runs once, over a copy that has all the bad files in it.
 */
const root = new URL('..', import.meta.url).pathname;

const bin = (name: string): string => join(root, 'node_modules/.bin', name);

const guards = {
  compiler: [bin('tsc'), '--noEmit', '-p', 'src/core'],
  layers: [bin('depcruise'), '--config', '.dependency-cruiser.cjs', 'src/core', 'src/shell'],
  linter: [bin('biome'), 'lint', '--reporter=github', '--max-diagnostics=none', 'src/core'],
  state: [process.execPath, '.config/no-hidden-state.mjs', 'src/core', 'src/shell'],
} as const;
type Guard = keyof typeof guards;

/** What each guard must refuse: a name, a bad file, and what is said of it. */
const bad: readonly (readonly [guard: Guard, what: string, text: string, says: RegExp])[] = [
  ['compiler', 'the console', 'console.log(1);', /Cannot find name 'console'/],
  ['compiler', 'Node', "import { sep } from 'node:path';\nsep.trim();", /Cannot find module 'node:path'/],
  ['compiler', 'the environment', 'export const home = process.env;', /Cannot find name 'process'/],
  ['layers', 'a package', "export { parse } from 'yaml';", /core-imports-only-core/],
  ['layers', 'a module of Node', "export { sep } from 'node:path';", /core-imports-only-core/],
  [
    'layers',
    'a circle of types',
    "import type { B } from './other.ts';\nexport type A = B | 1;",
    /no-circles/,
  ],
  ['linter', 'the clock', 'export const now = () => Date.now();', /global variable Date/],
  ['linter', 'a new date', 'export const now = () => new Date();', /global variable Date/],
  ['linter', 'randomness', 'export const dice = () => Math.random();', /no randomness/],
  ['linter', 'everything global', 'export const all = () => globalThis;', /global variable globalThis/],
  ['linter', 'languages', 'export const sort = new Intl.Collator();', /global variable Intl/],
  [
    'state',
    'a number as the machine writes it',
    'export const a = (n: number) => n.toLocaleString();',
    /language/,
  ],
  ['state', 'capitals by language', 'export const a = (t: string) => t.toLocaleUpperCase();', /language/],
  ['state', 'an order by language', "export const a = (t: string) => t.localeCompare('b');", /language/],
  ['state', 'a variable', 'let count = 0;\nexport const next = () => ++count;', /a variable at module level/],
  ['state', 'a map', 'export const known = new Map<string, number>();', /not typed ReadonlyMap/],
  ['state', 'a set', 'export const known: Set<string> = new Set();', /not typed ReadonlyMap or ReadonlySet/],
  ['state', 'a weak map', 'export const a = () => new WeakMap<object, number>();', /a weak collection/],
  [
    'state',
    'a list that grows',
    'const all: number[] = [];\nexport const add = (n: number) => all.push(n);',
    /change/,
  ],
  [
    'state',
    'an object that is written to',
    'const all: Record<string, number> = {};\nexport const add = (n: string) => {\n  all[n] = 1;\n};',
    /change/,
  ],
];

const nameOf = (what: string): string => `${what.replaceAll(' ', '-')}.ts`;

/** What must not be in the shell either: only `src/shell/disk` opens files, only `src/shell/io.ts` has the streams. */
const badInShell: readonly (readonly [
  guard: 'layers' | 'state',
  what: string,
  text: string,
  says: RegExp,
])[] = [
  ['layers', 'files', "export { readFileSync } from 'node:fs';", /only-disk-touches-files/],
  ['layers', 'promised files', "export { readFile } from 'fs/promises';", /only-disk-touches-files/],
  [
    'state',
    'standard output',
    "export const say = () => process.stdout.write('');",
    /a stream of the process/,
  ],
  ['state', 'standard input', 'export const { fd } = process.stdin;', /a stream of the process/],
  ['state', 'a console', "export const say = () => console.log('');", /past the outlets/],
];

let copy = '';
let said: Readonly<Record<Guard, readonly string[]>>;

const linesOf = (guard: Guard): Promise<readonly string[]> =>
  new Promise((resolve) => {
    const [file, ...args] = guards[guard];
    execFile(file, args, { cwd: copy, maxBuffer: 1e7 }, (_, stdout, stderr) => {
      // What a guard says of one file may go on in lines that begin with blanks.
      resolve(`${stdout}\n${stderr}`.replace(/\n\s+/gu, ' ').split('\n'));
    });
  });

beforeAll(async () => {
  copy = await mkdtemp(join(tmpdir(), 'guards-'));
  await cp(join(root, 'src/core'), join(copy, 'src/core'), { recursive: true });
  for (const file of ['tsconfig.json', '.biome.json', '.dependency-cruiser.cjs', '.config', 'package.json']) {
    await cp(join(root, file), join(copy, file), { recursive: true });
  }
  await writeFile(join(copy, '.gitignore'), 'node_modules/\n');
  await mkdir(join(copy, '.git'));
  await symlink(join(root, 'node_modules'), join(copy, 'node_modules'));
  for (const [guard, what, text] of bad) {
    await mkdir(join(copy, 'src/core/bad', guard), { recursive: true });
    await writeFile(join(copy, 'src/core/bad', guard, nameOf(what)), `${text}\n`);
  }
  for (const [, what, text] of badInShell) {
    await mkdir(join(copy, 'src/shell/bad'), { recursive: true });
    await writeFile(join(copy, 'src/shell/bad', nameOf(what)), `${text}\n`);
  }
  const back = "import type { A } from './a-circle-of-types.ts';\nexport type B = A | 2;\n";
  await writeFile(join(copy, 'src/core/bad/layers/other.ts'), back);
  const [compiler, layers, linter, state] = await Promise.all([
    linesOf('compiler'),
    linesOf('layers'),
    linesOf('linter'),
    linesOf('state'),
  ]);
  said = { compiler, layers, linter, state };
}, 120_000);

afterAll(() => rm(copy, { recursive: true, force: true }));

describe('the guards of the core', () => {
  it.each(bad)('the %s guard refuses %s', (guard, what, _, says) => {
    const own = said[guard].filter((line) => line.includes(`src/core/bad/${guard}/${nameOf(what)}`));
    expect(own.join('\n')).toMatch(says);
  });

  it.each(badInShell)('the %s guard refuses %s in the shell', (guard, what, _, says) => {
    const own = said[guard].filter((line) => line.includes(`src/shell/bad/${nameOf(what)}`));
    expect(own.join('\n')).toMatch(says);
  });

  it.each(Object.keys(guards) as Guard[])('the %s guard passes the core as it is', (guard) => {
    expect(said[guard].filter((line) => /src\/core\/(?!bad\/)/u.test(line))).toEqual([]);
  });
});
