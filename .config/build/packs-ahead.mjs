import { createHash } from 'node:crypto';
import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { importBundled } from './import-bundled.mjs';

/** A pack without what its checks do, which nothing can compare: their limits stand for it. */
const comparable = (pack) => ({
  ...pack,
  checks: pack.checks.map(({ rule: { judge, ...rule }, ...check }) => ({ ...check, rule })),
});

/**
 * Reads the shipped packs ahead and writes each as JSON under the SHA-256 of its bytes. Reading is pure: wherever the
 * program meets the same bytes it need not parse them, nor hold them to the schemas. A pack with a mistake is left to
 * the program, which tells it.
 */
export const writePacksAhead = async (root, folder) => {
  const { aheadOf, decode, packOfAhead, readPack } = await importBundled(
    join(root, 'src/input'),
    `export { decode } from './yaml/decode.ts';
     export { aheadOf, packOfAhead } from './pack/precompiled-pack.ts';
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
    const { pack, root: tree } = readPack(decoded.text, file, sha256);
    if (pack === null) continue;
    const json = JSON.stringify(aheadOf(pack, tree));
    if (!isDeepStrictEqual(comparable(packOfAhead(JSON.parse(json))), comparable(pack)))
      throw new Error(
        `${file} does not come back as it was read: src/input/pack/precompiled-pack.ts must keep more of it`,
      );
    await writeFile(join(folder, `${sha256}.json`), json);
  }
};
