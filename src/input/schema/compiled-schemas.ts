import type { Schema } from '../../core/checks/kind.ts';
import { jobSchema } from './job-schema.ts';
import { shopSchema } from './shop-schema.ts';

/** What the build compiles ahead into validators, by the name that each validator gets; packs have their own. */
export const toCompile: Readonly<Record<string, Schema>> = { job: jobSchema, shop: shopSchema };
