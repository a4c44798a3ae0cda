import type { Schema } from '../../core/checks/kind.ts';
import type { ListNode, MapNode, Node, ScalarNode } from '../yaml/tree.ts';

/** Whether a node fits a schema. */
export type Fit = (node: Node) => boolean;

type ScalarFit = (value: ScalarNode['value']) => boolean;

const never = (): boolean => false;
const always = (): boolean => true;

/** Every keyword that is looked at or means nothing for the answer; of any other nothing would be known. */
const known = new Set([
  ...['$schema', '$id', 'title', 'description', 'definitions', 'x-expected', '$ref', 'type', 'enum', 'const'],
  ...['minLength', 'maxLength', 'pattern', 'minimum', 'maximum', 'items', 'minItems', 'maxItems'],
  ...['required', 'properties', 'patternProperties', 'additionalProperties', 'minProperties'],
]);

const numberAt = (schema: Schema, keyword: string, otherwise: number): number =>
  typeof schema[keyword] === 'number' ? schema[keyword] : otherwise;

/** Length in characters, of which one beyond the first plane counts once. */
const lengthIn = (text: string, least: number, most: number): boolean => {
  if (text.length < least) return false;
  // No text has more characters than units, and none less than half as many.
  if (text.length <= most && text.length >= 2 * least) return true;
  const length = [...text].length;
  return length >= least && length <= most;
};

const stringFit = (schema: Schema): ScalarFit => {
  const least = numberAt(schema, 'minLength', 0);
  const most = numberAt(schema, 'maxLength', Number.POSITIVE_INFINITY);
  const pattern = typeof schema.pattern === 'string' ? new RegExp(schema.pattern, 'u') : null;
  return (value) =>
    typeof value === 'string' && lengthIn(value, least, most) && (pattern === null || pattern.test(value));
};

const numberFit = (schema: Schema): ScalarFit => {
  const least = numberAt(schema, 'minimum', Number.NEGATIVE_INFINITY);
  const most = numberAt(schema, 'maximum', Number.POSITIVE_INFINITY);
  return (value) => typeof value === 'number' && Number.isFinite(value) && value >= least && value <= most;
};

/** What a scalar may be by each type; lists and maps are none. */
const byType: Readonly<Record<string, (schema: Schema) => ScalarFit>> = {
  string: stringFit,
  number: numberFit,
  integer: (schema) => {
    const inRange = numberFit(schema);
    return (value) => Number.isInteger(value) && inRange(value);
  },
  boolean: () => (value) => typeof value === 'boolean',
  array: () => never,
  object: () => never,
};

const scalarFit = (schema: Schema, types: readonly string[] | null): ScalarFit => {
  if (Array.isArray(schema.enum) || 'const' in schema) {
    const words = new Set<unknown>(Array.isArray(schema.enum) ? schema.enum : [schema.const]);
    return (value) => words.has(value);
  }
  // Without a type anything is as good.
  if (types === null) return always;
  const fits = types.map((type) => {
    const make = byType[type];
    if (!make) throw new Error(`no fit for the type ${type}`);
    return make(schema);
  });
  const some = fits.filter((one) => one !== never);
  return some.length === 0 ? never : some.reduce((one, other) => (value) => one(value) || other(value));
};

const listFit = (schema: Schema, below: (schema: Schema) => Fit): ((node: ListNode) => boolean) => {
  const least = numberAt(schema, 'minItems', 0);
  const most = numberAt(schema, 'maxItems', Number.POSITIVE_INFINITY);
  const item = schema.items ? below(schema.items as Schema) : always;
  return ({ items }) => {
    if (items.length < least || items.length > most) return false;
    for (const one of items) if (!item(one)) return false;
    return true;
  };
};

const mapFit = (schema: Schema, below: (schema: Schema) => Fit): ((node: MapNode) => boolean) => {
  const required = (schema.required ?? []) as readonly string[];
  const least = numberAt(schema, 'minProperties', 0);
  const own = 'patternProperties' in schema;
  if (own && JSON.stringify(schema.patternProperties) !== '{"^x-":{}}') throw new Error('an unknown pattern');
  const properties = new Map(
    Object.entries((schema.properties ?? {}) as Readonly<Record<string, Schema>>).map(([key, one]) => [
      key,
      below(one),
    ]),
  );
  const { additionalProperties } = schema;
  const others =
    typeof additionalProperties === 'object'
      ? below(additionalProperties as Schema)
      : additionalProperties === false
        ? never
        : always;
  return ({ entries }) => {
    if (entries.size < least) return false;
    for (const key of required) if (!entries.has(key)) return false;
    for (const { key, node } of entries.values()) {
      const fits = properties.get(key) ?? (own && key.startsWith('x-') ? always : others);
      if (!fits(node)) return false;
    }
    return true;
  };
};

/**
 * A schema as a question that is answered on the tree itself: whether it fits, and no more than that. The compiled
 * validators are the ones of record; they want plain values, and are asked only what is wrong with a tree that does
 * not fit.
 *
 * @throws for a keyword that is not known here, whatever the tree
 */
export const schemaFit = (root: Schema): Fit => {
  const definitions = new Map<string, Fit>();
  const compile = (schema: Schema): Fit => {
    const unknown = Object.keys(schema).find((keyword) => !known.has(keyword));
    if (unknown !== undefined) throw new Error(`no fit for the schema keyword ${unknown}`);
    if (typeof schema.$ref === 'string') return referred(schema.$ref);
    const types = schema.type === undefined ? null : ([schema.type].flat() as string[]);
    const closed = Array.isArray(schema.enum) || 'const' in schema;
    const scalar = scalarFit(schema, types);
    const takes = (type: string): boolean => !closed && (types === null || types.includes(type));
    const list = takes('array') ? listFit(schema, compile) : never;
    const map = takes('object') ? mapFit(schema, compile) : never;
    return (node) => {
      if (node.kind === 'scalar') return scalar(node.value);
      return node.kind === 'list' ? list(node) : map(node);
    };
  };
  /** What a reference means is found when it is first met, since definitions may refer to themselves. */
  const referred = (ref: string): Fit => {
    const name = ref.split('/').at(-1) ?? '';
    return (node) => {
      const fits =
        definitions.get(name) ?? compile((root.definitions as Readonly<Record<string, Schema>>)[name] ?? {});
      definitions.set(name, fits);
      return fits(node);
    };
  };
  return compile(root);
};
