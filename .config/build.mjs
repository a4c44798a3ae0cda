// Builds the program: the validators from the schemas, what is known of the packs that ship, and the bundle.
import { mkdir, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { bundle } from './build/bundle.mjs';
import { importBundled } from './build/import-bundled.mjs';
import { writeLicences } from './build/licences.mjs';
import { precompilePacks } from './build/precompile-packs.mjs';
import { outputTypes, publicTypes } from './build/public-types.mjs';
import { validatorsOf } from './build/validators.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const input = join(root, 'src/input');
const generated = join(input, 'schema/generated');
const dist = join(root, 'dist');

await rm(dist, { recursive: true, force: true });
await rm(generated, { recursive: true, force: true });
await mkdir(generated, { recursive: true });
await mkdir(join(dist, 'schemas'), { recursive: true });
const publicFolder = join(root, 'src/public');

const { schemas, toCompile, packsToCompile } = await importBundled(
  join(input, 'schema'),
  `export { schemas } from './all-schemas.ts';
   export { toCompile } from './compiled-schemas.ts';
   export { packsToCompile } from './compiled-pack-schemas.ts';`,
);

// The schemas as files, for editors.
for (const [name, schema] of Object.entries(schemas)) {
  await writeFile(join(dist, 'schemas', `${name}.json`), `${JSON.stringify(schema, null, 2)}\n`);
}

const fromPackages = [];
// Packs have their own validators, so that whoever needs none of them loads none.
for (const [file, of] of Object.entries({ validators: toCompile, 'pack-validators': packsToCompile })) {
  const { code, files } = await validatorsOf(of);
  fromPackages.push(...files);
  await writeFile(join(generated, `${file}.js`), code);
  await writeFile(
    join(generated, `${file}.d.ts`),
    "import type { Validators } from '../schema-check.ts';\nexport declare const validators: Validators;\n",
  );
}

// What the package offers to other programs.
await outputTypes(schemas.output, publicFolder);
await publicTypes(publicFolder, join(dist, 'index.d.cts'));

await precompilePacks(root, join(dist, 'packs'));

fromPackages.push(
  ...(await bundle({ main: join(root, 'src/shell/main.ts'), index: join(publicFolder, 'index.ts') }, dist)),
);
await writeLicences(fromPackages, root, join(dist, 'licences.txt'));
