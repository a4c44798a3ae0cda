// Bundles the written cases with the program's own sources, and runs it.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = dirname(fileURLToPath(import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'cornerwise-cases-'));
const outfile = join(folder, 'cases.mjs');
try {
  await build({
    entryPoints: [join(here, 'cases/main.ts')],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    logLevel: 'warning',
    banner: {
      // Bundled CommonJS packages still call require for Node's own modules.
      js: "import { createRequire as casesRequire } from 'node:module'; const require = casesRequire(import.meta.url);",
    },
  });
  const env = { ...process.env, BENCH_ROOT: join(here, '../..') };
  process.exitCode = spawnSync(process.execPath, [outfile], { stdio: 'inherit', env }).status ?? 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
