import { schemas } from '../../input/schemas/index.ts';
import type { SchemaName } from '../../input/schemas/names.ts';

/** `cornerwise schema`: a schema as it is printed. */
export const schemaText = (name: SchemaName): string => `${JSON.stringify(schemas[name], null, 2)}\n`;
