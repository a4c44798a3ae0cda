import { createHash } from 'node:crypto';
import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { importBundled } from './import-bundled.mjs';

/**
 * Reads the shipped packs and writes each as JSON under the SHA-256 of its bytes, behind a line with the SHA-256 of both. Reading is pure: wherever the program
 * meets the same bytes, it takes the JSON and need not parse the file or check it against the schemas. A pack with a
 * mistake is not written, so that the program reads it and reports the mistake.
 */
export const precompilePacks = async (root, folder) => {
  const { decode, readPack } = await importBundled(
    join(root, 'src/input'),
    `export { decode } from './yaml/decode.ts';
     export { readPack } from './pack/read-pack.ts';`,
  );
  await mkdir(folder, { recursive: true });
  const rules = join(root, 'rules');
  for (const file of await readdir(rules, { recursive: true })) {
    if (!file.endsWith('.yaml')) continue;
    const bytes = await readFile(join(rules, file));
    const decoded = decode(bytes);
    if (!('text' in decoded)) continue;
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    const { pack } = readPack(decoded.text, file, sha256);
    if (pack === null) continue;
    const json = JSON.stringify(pack);
    if (!isDeepStrictEqual(JSON.parse(json), pack))
      throw new Error(`${file} does not come back from JSON as it was read: a pack must be plain data`);
    const seal = createHash('sha256').update(`${sha256}\n${json}`).digest('hex');
    await writeFile(join(folder, `${sha256}.json`), `${seal}\n${json}`);
  }
};
