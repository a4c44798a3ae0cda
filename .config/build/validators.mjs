import { fileURLToPath } from 'node:url';
import Ajv from 'ajv';
import standalone from 'ajv/dist/standalone/index.js';
import { build } from 'esbuild';
import { bundledFiles } from './licences.mjs';

const keyOf = (name) => `validate_${name.replace(/\W/gu, '_')}`;

/**
 * Schemas by their names to a module that exports `validators`, by the same names, and the files of packages that are in it.
 *
 * The messages are ours, so that the compiled code need not hold any.
 */
export const validatorsOf = async (schemas) => {
  const ajv = new Ajv({
    allErrors: true,
    strict: true,
    allowUnionTypes: true,
    messages: false,
    code: { source: true, esm: true, lines: true },
  });
  for (const keyword of ['x-expected', 'x-offered']) ajv.addKeyword({ keyword });
  const keys = {};
  for (const [name, schema] of Object.entries(schemas)) {
    const key = keyOf(name);
    ajv.addSchema({ ...schema, $id: key }, key);
    keys[key] = key;
  }
  const table = Object.keys(schemas).map((name) => `${JSON.stringify(name)}: ${keyOf(name)}`);
  const contents = `// Made by .config/build.mjs from src/input/schema; not kept in the repository.
${standalone.default(ajv, keys)}
export const validators = {${table.join(', ')}};
`;
  // The compiled code asks for a few of the compiler's own helpers; bundling puts them in.
  const { outputFiles, metafile } = await build({
    metafile: true,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    logLevel: 'warning',
    write: false,
    stdin: { contents, resolveDir: fileURLToPath(new URL('.', import.meta.url)), loader: 'js' },
  });
  return { code: outputFiles[0].text, files: bundledFiles(metafile) };
};
