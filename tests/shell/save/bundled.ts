import { chmod, cp, mkdtemp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { projectRoot } from '../../support/run.ts';

/** A folder that other users can look into, for programs that run as one. */
export const openFolder = async (): Promise<string> => {
  const folder = await mkdtemp(join(tmpdir(), 'cornerwise-save-'));
  await chmod(folder, 0o755);
  return folder;
};

/** Sources of the project and some lines that use them, as one file to start; its folder holds the packs, too. */
export const bundle = async (folder: string, contents: string): Promise<string> => {
  const outfile = join(folder, 'dist', 'start.mjs');
  await build({
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    logLevel: 'warning',
    stdin: { contents, resolveDir: projectRoot, loader: 'ts' },
    outfile,
    banner: {
      // Bundled CommonJS packages still call require for Node's own modules.
      js: "import { createRequire as forBundle } from 'node:module'; const require = forBundle(import.meta.url);",
    },
  });
  await cp(join(projectRoot, 'rules'), join(folder, 'rules'), { recursive: true });
  return outfile;
};

/** The whole program as one file to start. */
export const bundledProgram = (folder: string): Promise<string> =>
  bundle(
    folder,
    `import { realIo, run } from './src/shell/main.ts';
     process.exitCode = await run(process.argv.slice(2), realIo());`,
  );
