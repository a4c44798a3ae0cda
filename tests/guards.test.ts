import { execFile } from 'node:child_process';
import { cp, mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

/** The three guards of the core's purity, each shown to bite on a file that it alone catches. */
const root = new URL('..', import.meta.url).pathname;
let copy = '';

const tool = (name: string): string => join(root, 'node_modules/.bin', name);

const runTool = (name: string, args: readonly string[]): Promise<{ code: number; output: string }> =>
  new Promise((resolve) => {
    execFile(tool(name), [...args], { cwd: copy }, (error, stdout, stderr) => {
      resolve({ code: error ? 1 : 0, output: stdout + stderr });
    });
  });

const compiler = () => runTool('tsc', ['--noEmit', '-p', 'src/core']);
const layers = () => runTool('depcruise', ['--config', '.dependency-cruiser.cjs', 'src/core']);
const linter = () => runTool('biome', ['lint', 'src/core']);

beforeAll(async () => {
  copy = await mkdtemp(join(tmpdir(), 'guards-'));
  await cp(join(root, 'src/core'), join(copy, 'src/core'), { recursive: true });
  for (const file of ['tsconfig.json', '.biome.json', '.dependency-cruiser.cjs', '.config', 'package.json']) {
    await cp(join(root, file), join(copy, file), { recursive: true });
  }
  await writeFile(join(copy, '.gitignore'), 'node_modules/\n');
  await mkdir(join(copy, '.git'));
  await symlink(join(root, 'node_modules'), join(copy, 'node_modules'));
});

afterAll(() => rm(copy, { recursive: true, force: true }));

const withFile = async (
  name: string,
  text: string,
  check: () => Promise<{ code: number; output: string }>,
) => {
  const path = join(copy, 'src/core', name);
  await writeFile(path, text);
  try {
    return await check();
  } finally {
    await rm(path);
  }
};

describe('the guards of the core', () => {
  it('pass the core as it is', async () => {
    const [types, imports, lint] = [await compiler(), await layers(), await linter()];
    expect([types.code, imports.code, lint.code], types.output + imports.output + lint.output).toEqual([
      0, 0, 0,
    ]);
  });

  it.each([
    ['the console', 'console.log(1);', /Cannot find name 'console'/],
    ['Node', "import { readFileSync } from 'node:fs';\nreadFileSync('x');", /Cannot find module 'node:fs'/],
    ['the environment', 'export const home = process.env;', /Cannot find name 'process'/],
  ])('the compiler refuses %s', async (_, text, message) => {
    const { code, output } = await withFile('bad.ts', `${text}\nexport const bad = 1;\n`, compiler);
    expect(code).toBe(1);
    expect(output).toMatch(message);
  });

  it.each([
    ['a package', "export { parse } from 'yaml';"],
    ['Node', "export { sep } from 'node:path';"],
  ])('the layer check refuses %s', async (_, text) => {
    const { code, output } = await withFile('bad.ts', `${text}\n`, layers);
    expect(code).toBe(1);
    expect(output).toMatch(/core-imports-only-core/);
  });

  it.each([
    ['the clock', 'export const now = () => Date.now();', /no clock/],
    ['a new date', 'export const now = () => new Date();', /no clock/],
    ['randomness', 'export const dice = () => Math.random();', /no randomness/],
  ])('the linter refuses %s', async (_, text, message) => {
    const { code, output } = await withFile('bad.ts', `${text}\n`, linter);
    expect(code).toBe(1);
    expect(output).toMatch(message);
  });
});
