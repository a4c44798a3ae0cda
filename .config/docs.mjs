// Writes the pages of the documentation that are made from schemas and from what the program prints.
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { errorsPage } from './build/errors-page.mjs';
import { importBundled } from './build/import-bundled.mjs';
import { jobFilePage } from './build/job-file-page.mjs';

const root = new URL('..', import.meta.url);
const schema = JSON.parse(await readFile(new URL('dist/schemas/job.json', root), 'utf8'));
await writeFile(new URL('docs/job-file.md', root), jobFilePage(schema));

const { problemCodes, exitCodes } = await importBundled(
  fileURLToPath(new URL('src', root)),
  `export { problemCodes } from './core/flaw.ts';
   export { exitCodes } from './shell/shell.ts';`,
);
const reproducers = new URL('tests/reproducers/', root);
const outputs = {};
for (const name of await readdir(reproducers))
  if (name.endsWith('.txt')) outputs[name.slice(0, -4)] = await readFile(new URL(name, reproducers), 'utf8');
await writeFile(new URL('docs/errors.md', root), errorsPage(exitCodes, problemCodes, outputs));
