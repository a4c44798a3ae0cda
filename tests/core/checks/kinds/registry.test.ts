import { readdir } from 'node:fs/promises';
import { basename } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Kind } from '../../../../src/core/checks/kind.ts';
import { kinds } from '../../../../src/core/checks/kinds/index.ts';

const folder = new URL('../../../../src/core/checks/kinds/', import.meta.url);

const isKind = (value: unknown): value is Kind =>
  typeof value === 'object' && value !== null && 'kind' in value && 'read' in value && 'properties' in value;

const exported = async (): Promise<{ file: string; kind: Kind }[]> => {
  const files = (await readdir(folder, { recursive: true })).filter(
    (file) => file.endsWith('.ts') && file !== 'index.ts',
  );
  const found = await Promise.all(
    files.map(async (file) => {
      const module: Record<string, unknown> = await import(new URL(file, folder).href);
      return Object.values(module)
        .filter(isKind)
        .map((kind) => ({ file, kind }));
    }),
  );
  return found.flat();
};

describe('the registry of kinds', () => {
  it('holds every kind that a file of its folder exports, and no other', async () => {
    const found = await exported();
    expect(found.length).toBeGreaterThan(0);
    expect(found.map(({ kind }) => kind.kind).sort()).toEqual(kinds.map(({ kind }) => kind).sort());
    for (const { kind } of found) expect(kinds).toContain(kind);
  });

  it('has one file a kind, called after it', async () => {
    for (const { file, kind } of await exported()) expect(basename(file)).toBe(`${kind.kind}.ts`);
    expect(new Set(kinds.map(({ kind }) => kind)).size).toBe(kinds.length);
  });

  it('requires only parameters that a kind has, or that every check has', () => {
    for (const { kind, required, properties } of kinds) {
      for (const key of required) expect(Object.keys(properties).concat('in'), kind).toContain(key);
    }
  });

  it('says of every kind what it judges', () => {
    for (const { about } of kinds) expect(about).toMatch(/\.$/u);
  });
});
