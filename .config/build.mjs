// Builds the program: first the validators from the schemas, then one bundle a command.
import { mkdir, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import Ajv from 'ajv';
import standalone from 'ajv/dist/standalone/index.js';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const generated = join(root, 'src/input/generated');
const dist = join(root, 'dist');
const common = { bundle: true, platform: 'node', format: 'esm', target: 'node20', logLevel: 'warning' };

await rm(dist, { recursive: true, force: true });
await mkdir(generated, { recursive: true });

await build({
  ...common,
  stdin: {
    contents: "export { toCompile } from './compiled.ts'; export { schemas } from './index.ts';",
    resolveDir: join(root, 'src/input/schemas'),
  },
  outfile: join(dist, 'schemas.js'),
});
const { schemas, toCompile } = await import(pathToFileURL(join(dist, 'schemas.js')).href);
await rm(join(dist, 'schemas.js'));

// The schemas as files, for editors.
await mkdir(join(dist, 'schemas'));
for (const [name, schema] of Object.entries(schemas)) {
  await writeFile(join(dist, 'schemas', `${name}.json`), `${JSON.stringify(schema, null, 2)}\n`);
}

const ajv = new Ajv({
  allErrors: true,
  strict: true,
  allowUnionTypes: true,
  code: { source: true, esm: true, lines: true },
});
ajv.addKeyword({ keyword: 'x-expected' });
const names = {};
for (const [name, schema] of Object.entries(toCompile)) {
  const key = `validate_${name.replace(/\W/gu, '_')}`;
  ajv.addSchema({ ...schema, $id: key }, key);
  names[key] = key;
}
const code = standalone.default(ajv, names);
const table = Object.keys(toCompile).map(
  (name) => `${JSON.stringify(name)}: validate_${name.replace(/\W/gu, '_')}`,
);
const source = `// Made by .config/build.mjs from src/input/schemas; not kept in the repository.
${code}
export const validators = {${table.join(', ')}};
`;
// The compiled code asks for a few of the compiler's own helpers; bundling puts them in.
await writeFile(join(generated, 'raw.mjs'), source);
await build({
  ...common,
  entryPoints: [join(generated, 'raw.mjs')],
  outfile: join(generated, 'validators.js'),
});
await rm(join(generated, 'raw.mjs'));
await writeFile(
  join(generated, 'validators.d.ts'),
  `interface SchemaError {
  readonly keyword: string;
  readonly instancePath: string;
  readonly schemaPath: string;
  readonly params: Readonly<Record<string, unknown>>;
}
interface Validator {
  (value: unknown): boolean;
  readonly errors?: readonly SchemaError[] | null;
}
export declare const validators: Readonly<Record<string, Validator>>;
`,
);

await build({
  ...common,
  entryPoints: {
    main: join(root, 'src/shell/main.ts'),
    'sweep-worker': join(root, 'src/shell/sweep/worker.ts'),
  },
  outdir: dist,
  splitting: true,
  minifySyntax: true,
  banner: {
    // Bundled CommonJS packages still call require for Node's own modules.
    js: "import { createRequire as cornerwiseRequire } from 'node:module'; const require = cornerwiseRequire(import.meta.url);",
  },
});
