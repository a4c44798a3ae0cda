import { kinds } from '../../core/checks/index.ts';
import type { Schema } from '../../core/checks/kind.ts';
import { jobSchema } from './job.ts';
import { checkSchema, packSchema } from './pack.ts';
import { shopSchema } from './shop.ts';

/** What the build compiles ahead into validators, by the name that each validator gets. */
export const toCompile: Readonly<Record<string, Schema>> = {
  job: jobSchema,
  pack: packSchema,
  shop: shopSchema,
  ...Object.fromEntries(kinds.map((kind) => [`check:${kind.kind}`, checkSchema(kind)])),
};
