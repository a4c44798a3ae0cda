import { schemas } from '../../input/schema/all-schemas.ts';
import type { SchemaName } from '../../input/schema/schema-names.ts';

/** `cornerwise schema`: a schema as it is printed. */
export const schemaText = (name: SchemaName): string => `${JSON.stringify(schemas[name], null, 2)}\n`;
