import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { projectRoot } from '../../support/run.ts';

const bench = join(projectRoot, '.config/bench/suspects');

/** Every module that a file imports. */
const importsOf = (file: string): string[] =>
  [...readFileSync(file, 'utf8').matchAll(/from '([^']+)'/gu)].map(([, from]) => from ?? '');

it.each(['model', 'sheet', 'answers'])(
  '%s of the simulated fleet is pure: it needs nothing but itself and corners',
  (folder) => {
    const files = readdirSync(join(bench, folder), { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.ts'),
    );
    expect(files.length).toBeGreaterThan(2);
    for (const name of files) {
      const file = join(bench, folder, name);
      const text = readFileSync(file, 'utf8');
      expect(text).not.toMatch(/Math\.random|Date\b|process\.|console\./u);
      for (const from of importsOf(file))
        expect(from, name).toMatch(/^\.{1,2}\/(?!.*\/src\/)|\/src\/core\/(?:corner|key)\.ts$/u);
    }
  },
);
