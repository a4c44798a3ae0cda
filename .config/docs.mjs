// Writes the page of the documentation that is made from a schema.
import { readFile, writeFile } from 'node:fs/promises';
import { jobFilePage } from './build/job-file-page.mjs';

const root = new URL('..', import.meta.url);
const schema = JSON.parse(await readFile(new URL('dist/schemas/job.json', root), 'utf8'));
await writeFile(new URL('docs/job-file.md', root), jobFilePage(schema));
