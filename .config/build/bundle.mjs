import { createHash } from 'node:crypto';
import { writeFile } from 'node:fs/promises';
import { build, transform } from 'esbuild';
import { bundledFiles } from './licences.mjs';

/**
 * Bundles a program into parts, one for each dynamic import and what they share, and writes them as CommonJS: only of that can
 * Node 20 load what was compiled ahead. Parts are made as ES modules first, since the bundler splits no other.
 *
 * @param entryPoints paths of the sources that become parts of their own, by the part's name
 * @returns the files of packages that are in it
 */
export const bundle = async (entryPoints, outdir) => {
  const { outputFiles, metafile } = await build({
    metafile: true,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    logLevel: 'warning',
    splitting: true,
    write: false,
    entryPoints,
    outdir,
    outExtension: { '.js': '.cjs' },
  });
  // What an older build kept of its work is known by this.
  const buildHash = createHash('sha256');
  for (const { text } of outputFiles) buildHash.update(text);
  const buildId = JSON.stringify(buildHash.digest('hex').slice(0, 16));
  for (const { path, text } of outputFiles) {
    const { code } = await transform(text, {
      format: 'cjs',
      platform: 'node',
      target: 'node20',
      minify: true,
      supported: { 'dynamic-import': false },
      define: { 'import.meta.url': 'partUrl', CORNERWISE_BUILD: buildId },
      banner: text.includes('import.meta.url')
        ? "const partUrl = require('node:url').pathToFileURL(__filename).href;"
        : '',
    });
    await writeFile(path, code);
  }
  return bundledFiles(metafile);
};
