import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv, type ValidateFunction } from 'ajv';
import { describe, expect, it } from 'vitest';
import type { Schema } from '../../../src/core/checks/kind.ts';
import { schemas } from '../../../src/input/schema/all-schemas.ts';
import { packsToCompile } from '../../../src/input/schema/compiled-pack-schemas.ts';
import { toCompile } from '../../../src/input/schema/compiled-schemas.ts';
import { wordings } from '../../../src/input/schema/schema-words.ts';
import { readYaml } from '../../../src/input/yaml/read-yaml.ts';
import { toPlain } from '../../../src/input/yaml/tree.ts';
import { projectRoot } from '../../support/run.ts';
import { soundJob } from '../problems-of.ts';

const strict = (): Ajv => {
  const ajv = new Ajv({ strict: true, allowUnionTypes: true, allErrors: true });
  for (const keyword of ['x-expected', 'x-offered']) ajv.addKeyword(keyword);
  return ajv;
};

/** Compiled once each: the pack schema takes a while. */
const compiled = new Map<keyof typeof schemas, ValidateFunction>();
const validatorOf = (name: keyof typeof schemas): ValidateFunction => {
  const found = compiled.get(name) ?? strict().compile(schemas[name]);
  compiled.set(name, found);
  return found;
};

const plain = (text: string): unknown => {
  const { root, flaws } = readYaml(text);
  expect(flaws).toEqual([]);
  return root && toPlain(root);
};

const yamlBelow = (folder: string): string[] =>
  readdirSync(join(projectRoot, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.yaml') && !name.startsWith('mistakes'))
    .map((name) => join(folder, name));

const read = (path: string): unknown => plain(readFileSync(join(projectRoot, path), 'utf8'));

describe('the schemas that ship', () => {
  it.each(['job', 'pack', 'shop'] as const)(
    '%s compiles in strict mode, and says which draft it follows',
    (name) => {
      expect(() => validatorOf(name)).not.toThrow();
      expect(schemas[name]).toMatchObject({ $schema: 'http://json-schema.org/draft-07/schema#' });
    },
  );

  it.each(yamlBelow('rules'))('the editors’ pack schema accepts %s', (path) => {
    const validate = validatorOf('pack');
    validate(read(path));
    expect(validate.errors ?? []).toEqual([]);
  });

  it.each(yamlBelow('examples').filter((path) => !path.endsWith('cornerwise.yaml')))(
    'the job schema accepts %s',
    (path) => {
      const validate = validatorOf('job');
      validate(read(path));
      expect(validate.errors ?? []).toEqual([]);
    },
  );

  it('the editors’ pack schema knows the parameters of each kind', () => {
    const pack = (check: string): unknown =>
      plain(`pack: p\nversion: 1.0.0\ntitle: t\nchecks:\n  - ${check}\n`);
    const rest = 'id: a, title: t, in: [key-on], basis: {kind: from-memory}';
    const validate = validatorOf('pack');
    expect(validate(pack(`{kind: range, of: tank, tiers: [{weight: look, at-least: 1 psi}], ${rest}}`))).toBe(
      true,
    );
    expect(validate(pack(`{kind: range, of: tank, tires: [], ${rest}}`))).toBe(false);
    expect(validate(pack(`{kind: no-such-kind, ${rest}}`))).toBe(false);
  });
});

/** Every schema with a list of properties, wherever it stands. */
const withProperties = (schema: unknown, path: string): [string, Schema][] => {
  if (Array.isArray(schema)) return schema.flatMap((one, index) => withProperties(one, `${path}/${index}`));
  if (typeof schema !== 'object' || schema === null) return [];
  const own: [string, Schema][] =
    'properties' in schema && typeof schema.properties === 'object' ? [[path, schema as Schema]] : [];
  const below = Object.entries(schema).flatMap(([key, value]) => withProperties(value, `${path}/${key}`));
  return [...own, ...below];
};

describe('closed maps', () => {
  it.each(['job', 'shop'] as const)(
    'every map of the %s schema refuses keys that it does not know',
    (name) => {
      const open = withProperties(schemas[name], name).filter(
        ([, schema]) => schema.additionalProperties !== false,
      );
      expect(open.map(([path]) => path)).toEqual([]);
    },
  );

  it('so does every map of a check', () => {
    const checks = Object.entries(packsToCompile).filter(([name]) => name.startsWith('check:'));
    expect(checks.length).toBeGreaterThan(5);
    const open = checks
      .flatMap(([name, schema]) => withProperties(schema, name))
      .filter(([, schema]) => schema.additionalProperties !== false);
    expect(open.map(([path]) => path)).toEqual([]);
  });

  it('a misspelt key is refused on every level of a job', () => {
    const validate = validatorOf('job');
    expect(validate(plain(soundJob))).toBe(true);
    for (const key of ['titel', 'vehicle: {layuot', 'snapshots: [{stat']) {
      const text = key.includes('[') ? `${key}: 1}]` : key.includes('{') ? `${key}: 1}` : `${key}: 1`;
      expect(validate(plain(text))).toBe(false);
      expect(validate.errors?.some(({ keyword }) => keyword === 'additionalProperties')).toBe(true);
    }
  });
});

const annotations = new Set([
  '$schema',
  '$id',
  'title',
  'description',
  'x-expected',
  'x-offered',
  '$ref',
  'definitions',
]);
const containers = new Set(['properties', 'patternProperties', 'items']);

const keywordsOf = (schema: unknown): string[] => {
  if (typeof schema !== 'object' || schema === null || Array.isArray(schema)) return [];
  return Object.entries(schema).flatMap(([key, value]) => {
    const named = key === 'properties' || key === 'patternProperties' || key === 'definitions';
    const below = named ? Object.values(value as object).flatMap(keywordsOf) : keywordsOf(value);
    return [...(annotations.has(key) || containers.has(key) ? [] : [key]), ...below];
  });
};

describe('wordings', () => {
  it('every keyword of the compiled schemas has one, and none is idle', () => {
    const used = new Set(Object.values({ ...toCompile, ...packsToCompile }).flatMap(keywordsOf));
    expect([...used].filter((keyword) => !(keyword in wordings))).toEqual([]);
    expect(Object.keys(wordings).filter((keyword) => !used.has(keyword))).toEqual([]);
  });
});
