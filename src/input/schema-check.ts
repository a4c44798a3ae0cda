import type { Schema } from '../core/checks/kind.ts';
import type { Path } from '../core/flaw.ts';
import { validators } from './generated/validators.js';
import type { LocatedFlaw } from './problem.ts';
import { toCompile } from './schemas/compiled.ts';
import { didYouMean } from './suggest.ts';
import { get, type Node, offsetAt, textOf, toPlain } from './tree.ts';

const pathOf = (pointer: string): string[] =>
  pointer
    .split('/')
    .slice(1)
    .map((part) => part.replaceAll('~1', '/').replaceAll('~0', '~'));

/** The schema that a failing keyword stands in. */
const schemaAt = (root: Schema, schemaPath: string): Schema => {
  let here: unknown = root;
  for (const part of pathOf(schemaPath.replace(/^[^#]*#/u, '')).slice(0, -1)) {
    here = (here as Readonly<Record<string, unknown>>)[decodeURIComponent(part)] ?? {};
  }
  return here as Schema;
};

const nodeAt = (root: Node, path: Path): Node | undefined => {
  let here: Node | undefined = root;
  for (const part of path) here = here?.kind === 'list' ? here.items[Number(part)] : get(here, String(part));
  return here;
};

const typeWords: Readonly<Record<string, string>> = {
  object: 'a map (key: value lines)',
  array: 'a list (in square brackets, or a line each with a dash)',
  string: 'a text',
  number: 'a number',
  integer: 'a whole number',
  boolean: 'true or false',
  null: 'nothing',
};

const expectation = (schema: Schema, types: unknown): string => {
  const own = schema['x-expected'];
  if (typeof own === 'string') return own;
  const list = Array.isArray(types) ? types : String(types).split(',');
  return list.map((type) => typeWords[String(type)] ?? String(type)).join(' or ');
};

const propertiesOf = (schema: Schema): Readonly<Record<string, Schema>> =>
  (schema.properties ?? {}) as Readonly<Record<string, Schema>>;

/** One failure of a schema, with all that is needed to word it. */
interface Failure {
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
  readonly schema: Schema;
  readonly path: Path;
  readonly root: Node;
  /** The last key on the way. */
  readonly name: string;
}

const unknownKey = ({ params, schema, path, root, name }: Failure): LocatedFlaw => {
  const key = String(params.additionalProperty);
  const known = Object.keys(propertiesOf(schema));
  const place = path.length > 0 ? ` under "${name}"` : '';
  const hint = didYouMean(key, known, `known here: ${known.join(', ')}; own keys begin with x-`);
  const at = offsetAt(root, [...path, key], true);
  return { code: 'unknown-key', at, message: `"${key}" is not a key${place}`, hint };
};

const missingKey = ({ params, schema, path, root, name }: Failure): LocatedFlaw => {
  const key = String(params.missingProperty);
  const own = propertiesOf(schema)[key];
  const example = own?.['x-expected'] ?? (Array.isArray(own?.enum) ? own.enum.join(' | ') : '…');
  const place = path.length > 0 ? `"${name}" lacks` : 'the file lacks';
  const at = offsetAt(root, path);
  return { code: 'missing-key', at, message: `${place} the key "${key}"`, hint: `add ${key}: ${example}` };
};

const wrongType = ({ params, schema, path, root, name }: Failure): LocatedFlaw => {
  const here = nodeAt(root, path);
  const wants = expectation(schema, params.type);
  if (here?.kind === 'scalar' && here.value === null) {
    const hint = `give ${wants}, or leave the key out`;
    return {
      code: 'wrong-type',
      at: offsetAt(root, path, true),
      message: `nothing stands behind "${name}"`,
      hint,
    };
  }
  const quoted = here?.kind === 'scalar' && String(params.type) === 'string' ? here.text : null;
  const hint = quoted === null ? `write ${wants}` : `put it in quotes: "${quoted}"`;
  return { code: 'wrong-type', at: offsetAt(root, path), message: `"${name}" must be ${wants}`, hint };
};

const wrongWord = ({ keyword, params, path, root, name }: Failure): LocatedFlaw => {
  const known = keyword === 'enum' ? (params.allowedValues as readonly unknown[]) : [params.allowedValue];
  const words = known.map(String);
  const typed = textOf(nodeAt(root, path)) ?? '';
  const hint = didYouMean(typed, words, `it can be ${words.join(', ')}`);
  const corner = words.length === 4 && words.includes('LF');
  const message = corner ? `"${typed}" is not a corner` : `"${typed}" is not a value of "${name}"`;
  return { code: corner ? 'unknown-corner' : 'wrong-value', at: offsetAt(root, path), message, hint };
};

const wrongForm = ({ schema, path, root, name }: Failure): LocatedFlaw => {
  const hint = `write ${String(schema['x-expected'] ?? 'it as the documentation shows')}`;
  return { code: 'wrong-value', at: offsetAt(root, path), message: `"${name}" has the wrong form`, hint };
};

const outOfBounds =
  (sense: string, things: string) =>
  ({ params, path, root, name }: Failure): LocatedFlaw => {
    const message = `"${name}" wants ${sense} ${String(params.limit)}${things}`;
    return { code: 'wrong-value', at: offsetAt(root, path), message, hint: null };
  };

/** One wording a keyword; what a schema of ours does not use is not here. */
const wordings: Readonly<Record<string, (failure: Failure) => LocatedFlaw>> = {
  additionalProperties: unknownKey,
  required: missingKey,
  type: wrongType,
  enum: wrongWord,
  const: wrongWord,
  pattern: wrongForm,
  minItems: outOfBounds('at least', ' entries'),
  maxItems: outOfBounds('at most', ' entries'),
  minProperties: outOfBounds('at least', ' keys'),
  minLength: outOfBounds('at least', ' characters'),
  maxLength: outOfBounds('at most', ' characters'),
  minimum: outOfBounds('at least', ''),
  maximum: outOfBounds('at most', ''),
};

const lastName = (path: Path): string =>
  String(path.findLast((part) => typeof part === 'string' && !/^\d+$/u.test(part)) ?? 'the file');

/**
 * Holds a tree to one of the compiled schemas and says what does not fit, each flaw at its place.
 *
 * @param name a key of `toCompile`: job, pack, shop, or `check:KIND`
 */
export const schemaFlaws = (name: string, root: Node): LocatedFlaw[] => {
  const validate = validators[name];
  const schema = toCompile[name];
  if (!validate || !schema) throw new Error(`no validator ${name}`);
  if (validate(toPlain(root))) return [];
  return (validate.errors ?? []).flatMap(({ keyword, instancePath, schemaPath, params }) => {
    const path = pathOf(instancePath);
    const failure = {
      keyword,
      params,
      schema: schemaAt(schema, schemaPath),
      path,
      root,
      name: lastName(path),
    };
    const wording = wordings[keyword];
    if (!wording) throw new Error(`no wording for the schema keyword ${keyword}`);
    return [wording(failure)];
  });
};
