import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

/**
 * What some TypeScript exports, run in the build itself.
 *
 * @param resolveDir the folder from which its imports are named
 */
export const importBundled = async (resolveDir, contents) => {
  const folder = await mkdtemp(join(tmpdir(), 'cornerwise-build-'));
  try {
    const outfile = join(folder, 'bundled.mjs');
    await build({
      bundle: true,
      platform: 'node',
      format: 'esm',
      target: 'node20',
      logLevel: 'warning',
      stdin: { contents, resolveDir },
      outfile,
      banner: {
        js: "import { createRequire as bundledRequire } from 'node:module'; const require = bundledRequire(import.meta.url);",
      },
    });
    return await import(pathToFileURL(outfile).href);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
};
