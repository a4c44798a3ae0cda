import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = dirname(fileURLToPath(import.meta.url));

/**
 * Bundles a benchmark in TypeScript with the program's own sources.
 *
 * @param entry the path of its first file below this folder
 * @param outfile where the bundle is written
 */
export const bundleBench = (entry, outfile) =>
  build({
    entryPoints: [join(here, entry)],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    logLevel: 'warning',
    banner: {
      // Bundled CommonJS packages still call require for Node's own modules.
      js: "import { createRequire as benchRequire } from 'node:module'; const require = benchRequire(import.meta.url);",
    },
  });

/** Bundles a benchmark and runs it; this process ends with its exit code. */
export const runBundled = async (entry) => {
  const folder = mkdtempSync(join(tmpdir(), 'cornerwise-bench-'));
  const outfile = join(folder, 'bench.mjs');
  try {
    await bundleBench(entry, outfile);
    const env = { ...process.env, BENCH_ROOT: join(here, '../..') };
    process.exitCode = spawnSync(process.execPath, [outfile], { stdio: 'inherit', env }).status ?? 1;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};
