const indented = (text) => text.replaceAll('\n', '\n  ');

const named = (type) =>
  ({ string: 'string', number: 'number', integer: 'number', boolean: 'boolean', null: 'null' })[type];

/** What a map holds: its members, else values under names of any kind. */
const mapType = ({ properties, required = [], additionalProperties }) => {
  if (properties === undefined)
    return typeof additionalProperties === 'object'
      ? `{ readonly [name: string]: ${typeOf(additionalProperties)} }`
      : '{ readonly [name: string]: unknown }';
  const lines = Object.entries(properties).map(
    ([key, schema]) => `readonly ${key}${required.includes(key) ? '' : '?'}: ${indented(typeOf(schema))};`,
  );
  return `{\n  ${lines.join('\n  ')}\n}`;
};

const listType = ({ items, minItems, maxItems }) => {
  const item = typeOf(items);
  if (minItems !== undefined && minItems === maxItems)
    return `readonly [${Array(minItems).fill(item).join(', ')}]`;
  return /^\w+$/u.test(item) ? `readonly ${item}[]` : `ReadonlyArray<${item}>`;
};

const oneType = (type, schema) => {
  if (type === 'object') return mapType(schema);
  return type === 'array' ? listType(schema) : named(type);
};

/** The TypeScript of what a schema of the machine output allows. */
export const typeOf = (schema) => {
  if ('const' in schema) return JSON.stringify(schema.const);
  if (schema.enum) return schema.enum.map((word) => JSON.stringify(word)).join(' | ');
  if (schema.oneOf) return schema.oneOf.map(typeOf).join(' | ');
  const types = [schema.type].flat().map((type) => oneType(type, schema));
  if (types.some((type) => type === undefined))
    throw new Error(`no type for ${JSON.stringify(schema).slice(0, 200)}`);
  return types.join(' | ');
};
