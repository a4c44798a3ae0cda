import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { expect, it } from 'vitest';

const root = new URL('..', import.meta.url).pathname;

it('a checkout that turns line ends keeps the bytes of packs, examples and recordings', () => {
  const top = mkdtempSync(join(tmpdir(), 'cornerwise-checkout-'));
  try {
    const git = (...words: string[]) =>
      execFileSync(
        'git',
        ['-c', 'core.autocrlf=true', '-c', 'user.name=a', '-c', 'user.email=a@b', ...words],
        {
          cwd: top,
          stdio: 'ignore',
        },
      );
    for (const name of ['.gitattributes', 'rules', 'examples', 'tests/reproducers', 'tests/scenarios'])
      cpSync(join(root, name), join(top, name), { recursive: true });
    git('init', '-q');
    git('add', '-A');
    git('commit', '-qm', 'All');
    for (const name of ['rules', 'examples', 'tests']) rmSync(join(top, name), { recursive: true });
    git('checkout', '--', '.');
    const files = readdirSync(top, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && !entry.parentPath.includes('/.git'))
      .map((entry) => relative(top, join(entry.parentPath, entry.name)));
    expect(files.length).toBeGreaterThan(100);
    const same = (file: string) => readFileSync(join(top, file)).equals(readFileSync(join(root, file)));
    expect(files.filter((file) => !same(file))).toEqual([]);
  } finally {
    rmSync(top, { recursive: true, force: true });
  }
});
