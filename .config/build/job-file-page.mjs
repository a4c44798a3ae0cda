import { sections } from './job-file-words.mjs';

/** Schemas that are a map of names which the writer of the file chooses. */
const freeNames = (schema) =>
  schema.type === 'object' &&
  schema.properties === undefined &&
  typeof schema.additionalProperties === 'object';

/** True where every key is a corner. */
const perCorner = ({ properties = {} }) => {
  const keys = Object.keys(properties);
  return keys.length === 4 && ['LF', 'RF', 'LR', 'RR'].every((corner) => keys.includes(corner));
};

/** True for a map, and for what is a map, a list of them or a name; a reading is none of these. */
const isMap = ({ type, properties }) => properties !== undefined && ![type].flat().includes('number');

/** True for a list of maps. */
const isListOfMaps = ({ type, items }) =>
  [type].flat()[0] === 'array' && items !== undefined && [items.type].flat().includes('object');

/** The keys at and below a schema: path, schema, whether it must be there. A list stands for its entries. */
const keysOf = (schema, path, required) => {
  const below = (key, of, must) => keysOf(of, path === '' ? key : `${path}.${key}`, must);
  if (isListOfMaps(schema)) return keysOf(schema.items, path, required);
  if (perCorner(schema)) return below('*', schema.properties.LF, false);
  if (freeNames(schema)) return below('*', schema.additionalProperties, false);
  if (isMap(schema)) {
    return Object.entries(schema.properties).flatMap(([key, of]) =>
      below(key, of, (schema.required ?? []).includes(key)),
    );
  }
  return [{ path, schema, required }];
};

const code = (word) => `\`${word}\``;

/** The words that a value can be, without those that are only understood. */
const wordsOf = (schema) => schema['x-offered'] ?? schema.enum;

/** What the entries of a list are. */
const entriesOf = (items) => {
  const { type } = items;
  const words = wordsOf(items);
  if (words !== undefined) return words.map(code).join(', ');
  if (type === 'number') return 'numbers';
  return type === 'string' ? 'texts' : 'values with units';
};

/** What a value looks like, as the schema says. */
const valueText = (schema) => {
  const expected = schema['x-expected'];
  if (schema.const !== undefined) return code(schema.const);
  if (schema.enum !== undefined) return wordsOf(schema).map(code).join(', ');
  if (expected === undefined && schema.type === 'array') {
    const size = schema.minItems > 0 && schema.minItems === schema.maxItems ? `${schema.minItems} ` : '';
    return size === ''
      ? `a list of ${entriesOf(schema.items)}`
      : `${size}${entriesOf(schema.items)} in a list`;
  }
  // The schema's example is a voltage, which is wrong for most quantities.
  if (expected !== undefined) return expected.replace(/ with its unit, such as 2\.48 V$/u, ' with its unit');
  return schema.type === 'number' ? 'a number' : 'a text';
};

const row = ({ path, schema, required }, words) => {
  const says = [words, required ? '**required**' : ''].filter((part) => part !== '').join('; ');
  return `| ${code(path)} | ${valueText(schema).replaceAll('|', '\\|')} | ${says} |`;
};

const sectionText = ({ title, of, says, keys, example }, schema) => {
  if (keys === null) return `## ${title}\n\n${says}\n`;
  const rows = of.flatMap((key) => {
    const required = schema.required.includes(key);
    const inside = of.length === 1 ? '' : key;
    return keysOf(schema.properties[key], inside, required);
  });
  const unknown = Object.keys(keys).filter((key) => !rows.some(({ path }) => path === key));
  const without = rows.filter(({ path }) => keys[path] === undefined).map(({ path }) => path);
  if (unknown.length + without.length > 0)
    throw new Error(
      `job-file-words.mjs, ${title}: no such key: ${unknown.join(', ')}; no words: ${without.join(', ')}`,
    );
  return `## ${title}

${says}

| key | value | |
|---|---|---|
${rows.map((one) => row(one, keys[one.path])).join('\n')}

\`\`\`yaml
${example}\`\`\`
`;
};

/** The reference page of job files, from their schema and the prose in job-file-words.mjs. */
export const jobFilePage = (schema) => {
  const told = sections.flatMap(({ of }) => of);
  const missing = Object.keys(schema.properties).filter((key) => !told.includes(key));
  if (missing.length > 0) throw new Error(`job-file-words.mjs has no section for ${missing.join(', ')}`);
  return `<!-- Written by "npm run docs" from the schema of job files and .config/build/job-file-words.mjs. -->

# The job file

A job file is YAML: one vehicle's visit. Keys that the format does not know are mistakes; keys that begin with \`x-\` are
your own and are left alone. Anchors, aliases and tags are not allowed. \`cornerwise schema job\` prints the schema.

In the tables a dot means "below": \`distance.in\` is the key \`in\` below \`distance\`. A star stands for a name, such as
a corner (\`LF\`, \`RF\`, \`LR\`, \`RR\`) or a channel. The examples of all sections, one below the other, are one job.

${sections.map((section) => sectionText(section, schema)).join('\n')}`;
};
