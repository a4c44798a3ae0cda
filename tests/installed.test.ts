import { chmod, cp, mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Installed, installPacked, runProgram } from './support/installed.ts';

const projectRoot = new URL('..', import.meta.url).pathname;

/** The package as a user gets it: packed, and installed into an empty folder without a network. */
let installed: Installed;
beforeAll(async () => {
  installed = await installPacked();
}, 120_000);
afterAll(() => installed?.remove());

const packageFolder = (): string => join(installed.prefix, 'node_modules/cornerwise');

describe('the tarball', () => {
  it('brings no other package', async () => {
    const names = (await readdir(join(installed.prefix, 'node_modules'))).filter((name) => name[0] !== '.');
    expect(names).toEqual(['cornerwise']);
  });

  it('holds what the program needs, and nothing of its making', () => {
    const tops = [...new Set(installed.files.map((path) => path.split('/')[0]))].sort();
    expect(tops).toEqual([
      ...['CHANGELOG.md', 'LICENSE', 'README.md'],
      ...['bin', 'dist', 'examples', 'package.json', 'rules'],
    ]);
  });

  it('holds the licence text of every package that is bundled', async () => {
    const text = await readFile(join(packageFolder(), 'dist/licences.txt'), 'utf8');
    const parts = text.split(`${'-'.repeat(80)}\n`).slice(1);
    const named = parts.map((part) => /^\n(\S+) \S+ \((.+)\)\n/u.exec(part)?.[1] ?? '');
    // What the sources import, and the helpers of the compiled schemas.
    const imported = ['yaml', 'commander', 'luxon', 'chalk', 'cli-table3', 'semver', 'tinyglobby'];
    expect(named).toEqual(expect.arrayContaining([...imported, 'fastest-levenshtein', 'ajv']));
    for (const part of parts) expect(part).toMatch(/copyright/iu);
    const manifest = JSON.parse(await readFile(join(packageFolder(), 'package.json'), 'utf8'));
    expect([manifest.dependencies, manifest.optionalDependencies]).toEqual([undefined, undefined]);
  });
});

describe('the installed program', () => {
  const job = 'examples/shuttle-07-left-rear-low.yaml';
  const check = ['check', job, '--as-of', '2026-03-02T18:00'];

  /** Somebody who owns nothing; whoever runs the tests where that cannot be another. */
  const somebody = process.getuid?.() === 0 ? { uid: 65534, gid: 65534 } : {};

  it('works read-only and for another user, and writes only where the job lies', async () => {
    const home = join(installed.top, 'home');
    await mkdir(join(home, 'jobs'), { recursive: true });
    await cp(join(projectRoot, 'examples'), join(home, 'examples'), { recursive: true });
    for (const folder of ['.', 'jobs']) await chmod(join(home, folder), 0o777);
    await chmod(installed.top, 0o755);
    expect((await runProgram('chmod', ['-R', 'a-w', installed.prefix], { cwd: home })).code).toBe(0);
    const run = (...words: string[]) =>
      runProgram(process.execPath, [join(installed.prefix, 'node_modules/.bin/cornerwise'), ...words], {
        cwd: home,
        env: { HOME: home, PATH: '/usr/bin:/bin', TZ: 'UTC' },
        ...somebody,
      });
    const built = [join(projectRoot, 'bin/cornerwise.js'), ...check];
    expect(await run(...check)).toEqual(
      await runProgram(process.execPath, built, { cwd: projectRoot, env: { TZ: 'UTC' } }),
    );
    const made = await run('new', 'jobs/s4.yaml', '--vehicle', 'Shuttle 4', '--complaint', 'sits low');
    expect([made.code, made.stderr]).toEqual([0, '']);
    for (const words of [
      ['add', 'jobs/s4.yaml', 'key-on', 'supply=12.20'],
      ['undo', 'jobs/s4.yaml'],
    ])
      expect(await run(...words)).toMatchObject({ code: 0, stderr: '' });
    expect(await readdir(join(home, 'jobs'))).toEqual(['s4.yaml']);
    expect((await runProgram('chmod', ['-R', 'u+w', installed.prefix], { cwd: home })).code).toBe(0);
  });
});

describe('docs/library.md', () => {
  it('has an example that compiles in strict mode, and prints what the page says', async () => {
    const page = await readFile(join(projectRoot, 'docs/library.md'), 'utf8');
    const blocks = [...page.matchAll(/```(\w+)\n([\s\S]*?)```/gu)].map(([, , body = '']) => body);
    const [example = '', good = '', bad = '', printed] = blocks;
    const folder = join(installed.prefix, 'program');
    await mkdir(folder);
    await writeFile(join(folder, 'package.json'), '{"type": "module"}\n');
    await writeFile(join(folder, 'example.ts'), example);
    await writeFile(join(folder, 's7.yaml'), good);
    await writeFile(join(folder, 's8.yaml'), bad);
    const node = join(projectRoot, 'node_modules');
    const strict = ['--strict', '--exactOptionalPropertyTypes', '--noUncheckedIndexedAccess'];
    const target = ['--module', 'nodenext', '--target', 'es2023', '--lib', 'es2023', '--types', 'node'];
    const tsc = [join(node, 'typescript/bin/tsc'), ...strict, ...target, '--typeRoots', join(node, '@types')];
    const compiled = await runProgram(process.execPath, [...tsc, 'example.ts'], { cwd: folder });
    expect(compiled).toEqual({ code: 0, stdout: '', stderr: '' });
    const ran = await runProgram(process.execPath, ['example.js', 's7.yaml', 's8.yaml'], {
      cwd: folder,
      env: {},
    });
    expect(ran).toEqual({ code: 0, stdout: printed, stderr: '' });
  });
});
