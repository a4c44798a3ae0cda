import type { Schema } from '../../core/checks/kind.ts';
import { jobSchema } from './job.ts';
import type { SchemaName } from './names.ts';
import { outputSchema } from './output.ts';
import { packSchemaForEditors } from './pack.ts';
import { shopSchema } from './shop.ts';
import { sweepSchema } from './sweep.ts';

/** The schemas that ship: for editors, and for anybody who reads or writes these files with a program. */
export const schemas = {
  job: jobSchema,
  pack: packSchemaForEditors,
  shop: shopSchema,
  output: outputSchema,
  sweep: sweepSchema,
} as const satisfies Record<SchemaName, Schema>;
