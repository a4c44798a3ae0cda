import type { Schema } from '../../core/checks/kind.ts';
import type { Path } from '../../core/flaw.ts';
import type { LocatedFlaw } from '../problem.ts';
import { type Node, toPlain } from '../yaml/tree.ts';
import { toCompile } from './compiled-schemas.ts';
import { validators } from './generated/validators.js';
import { type Failure, meantKey, wordings } from './schema-words.ts';

interface SchemaError {
  readonly keyword: string;
  readonly instancePath: string;
  readonly params: Readonly<Record<string, unknown>>;
}

interface Validator {
  (value: unknown): boolean;
  readonly errors?: readonly SchemaError[] | null;
}

/** Compiled schemas by their names. */
export type Validators = Readonly<Record<string, Validator>>;

const pathOf = (pointer: string): string[] =>
  pointer
    .split('/')
    .slice(1)
    .map((part) => part.replaceAll('~1', '/').replaceAll('~0', '~'));

/** The schema of what stands below a key or list position. */
const below = (schema: Schema, part: string): Schema => {
  const properties = (schema.properties ?? {}) as Readonly<Record<string, Schema>>;
  if (Object.hasOwn(properties, part)) return properties[part] ?? {};
  const next = /^\d+$/u.test(part) && schema.items ? schema.items : schema.additionalProperties;
  return typeof next === 'object' && next !== null ? (next as Schema) : {};
};

/**
 * The schema that a place of a file is held to. It is found from the place, not from the path that the validator
 * gives: behind a reference that path begins anew. This works because our schemas offer no choice of shapes.
 */
const schemaAt = (root: Schema, path: Path): Schema => {
  const definitions = (root.definitions ?? {}) as Readonly<Record<string, Schema>>;
  const resolved = (schema: Schema): Schema =>
    typeof schema.$ref === 'string' ? (definitions[schema.$ref.split('/').at(-1) ?? ''] ?? {}) : schema;
  return path.reduce<Schema>((schema, part) => resolved(below(schema, String(part))), root);
};

const lastName = (path: Path): string | null =>
  (path.findLast((part) => !/^\d+$/u.test(String(part))) as string | undefined) ?? null;

/** Several keys that one map lacks are one failure; one that stands there misspelt is told as that. */
const grouped = (failures: readonly Failure[]): Failure[] => {
  const misspelt = new Set(failures.map((failure) => JSON.stringify([failure.path, meantKey(failure)])));
  const lacking = new Map<string, string[]>();
  return failures.flatMap((failure) => {
    if (failure.keyword !== 'required') return [failure];
    const key = String(failure.params.missingProperty);
    if (misspelt.has(JSON.stringify([failure.path, key]))) return [];
    const place = JSON.stringify(failure.path);
    const keys = lacking.get(place);
    if (keys) {
      keys.push(key);
      return [];
    }
    const first = [key];
    lacking.set(place, first);
    return [{ ...failure, params: { missing: first } }];
  });
};

/** Holds a tree to the schema of a name and says what does not fit, each flaw at its place. */
export type SchemaCheck = (name: string, root: Node) => LocatedFlaw[];

/** The check against some schemas, by their names, and the validators that were compiled of them. */
export const schemaCheck =
  (validators: Validators, schemas: Readonly<Record<string, Schema>>): SchemaCheck =>
  (name, root) => {
    const validate = validators[name];
    const schema = schemas[name];
    if (!validate || !schema) throw new Error(`no validator ${name}`);
    if (validate(toPlain(root))) return [];
    const failures = (validate.errors ?? []).map(({ keyword, instancePath, params }): Failure => {
      const path = pathOf(instancePath);
      const { required } = schemaAt(schema, path.slice(0, -1));
      const optional = !(Array.isArray(required) && required.includes(path.at(-1)));
      return {
        keyword,
        params,
        schema: schemaAt(schema, path),
        path,
        root,
        name: lastName(path),
        optional,
      };
    });
    return grouped(failures).map((failure) => {
      const wording = wordings[failure.keyword];
      if (!wording) throw new Error(`no wording for the schema keyword ${failure.keyword}`);
      return wording(failure);
    });
  };

/** Holds a job or a shop file to its schema. */
export const schemaFlaws: SchemaCheck = schemaCheck(validators, toCompile);
