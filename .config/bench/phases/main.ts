// Where the time of a cold sweep goes, job by job, in steps of the program's own functions.
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { assessBriefly } from '../../../src/core/assess.ts';
import { layouts } from '../../../src/core/job.ts';
import { openJob } from '../../../src/input/job/read-job.ts';
import { decode } from '../../../src/input/yaml/decode.ts';
import { standingOf } from '../../../src/report/sweep/standing.ts';
import { readPlain } from '../../../src/shell/disk/read-plain.ts';
import { libraryCache } from '../../../src/shell/library-cache.ts';
import { readJobText } from '../../../src/shell/read-job-text.ts';
import { findShopFile, shopFor } from '../../../src/shell/shop-file.ts';
import { contentHash } from '../../../src/shell/sweep/hash.ts';

const [, , folder = '', rules = ''] = process.argv;
const files = (readdirSync(folder, { recursive: true }) as string[])
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => join(folder, name));

const spent = new Map<string, number>();

const timed = <T>(name: string, does: () => T): T => {
  const started = performance.now();
  const result = does();
  spent.set(name, (spent.get(name) ?? 0) + performance.now() - started);
  return result;
};

const io = { readFile: async (path: string) => readPlain(path) } as never;
const found = await shopFor(folder, io);
const library = libraryCache(layouts)([rules]);
await findShopFile(folder);
const asOf = Date.UTC(2026, 2, 2, 18);

for (const round of [0, 1]) {
  if (round === 1) spent.clear();
  for (const file of files) {
    const bytes = timed('reading the file', () => readPlain(file));
    timed('hashing it', () => contentHash(bytes));
    const decoded = timed('UTF-8', () => decode(bytes));
    if ('problem' in decoded) throw new Error(`${file} cannot be decoded`);
    timed('YAML and schema', () => openJob(decoded.text));
    const started = performance.now();
    const read = await readJobText(decoded.text, found, library);
    spent.set('all of reading', (spent.get('all of reading') ?? 0) + performance.now() - started);
    const { job } = read;
    if (job === null) throw new Error(`${file} cannot be read`);
    const sheet = timed('judging', () => assessBriefly(job, read.prepared, asOf));
    const standing = timed('its line', () => standingOf(sheet, 'never'));
    timed('JSON', () => JSON.stringify(standing));
  }
}

// The text is read twice above, so that its first half can be told from the rest.
const yaml = spent.get('YAML and schema') ?? 0;
spent.set('values, names, times', (spent.get('all of reading') ?? 0) - yaml);
spent.delete('all of reading');
console.log(
  JSON.stringify(Object.fromEntries([...spent].map(([name, ms]) => [name, (ms / files.length) * 1000]))),
);
