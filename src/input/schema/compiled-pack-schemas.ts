import type { Schema } from '../../core/checks/kind.ts';
import { kinds } from '../../core/checks/kinds/index.ts';
import { checkSchema, packSchema } from './pack-schema.ts';

/**
 * What the build compiles ahead for packs: with one schema a kind of check most of all validators, which the packs
 * that ship do not need.
 */
export const packsToCompile: Readonly<Record<string, Schema>> = {
  pack: packSchema,
  ...Object.fromEntries(kinds.map((kind) => [`check:${kind.kind}`, checkSchema(kind)])),
};
