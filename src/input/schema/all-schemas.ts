import type { Schema } from '../../core/checks/kind.ts';
import { jobSchema } from './job-schema.ts';
import { outputSchema } from './output-schema.ts';
import { packSchemaForEditors } from './pack-schema.ts';
import type { SchemaName } from './schema-names.ts';
import { shopSchema } from './shop-schema.ts';
import { sweepSchema } from './sweep-schema.ts';

/** The schemas that ship: for editors, and for anybody who reads or writes these files with a program. */
export const schemas = {
  job: jobSchema,
  pack: packSchemaForEditors,
  shop: shopSchema,
  output: outputSchema,
  sweep: sweepSchema,
} as const satisfies Record<SchemaName, Schema>;
