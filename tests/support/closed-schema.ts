/**
 * A schema of the machine output as the program itself is held to it: an object has the members that are named, and no
 * other. What ships allows more, so that a reader of today passes over what a later version adds.
 */
export const closedSchema = <T>(schema: T): T => {
  if (Array.isArray(schema)) return schema.map(closedSchema) as T;
  if (typeof schema !== 'object' || schema === null) return schema;
  const below = Object.fromEntries(Object.entries(schema).map(([key, value]) => [key, closedSchema(value)]));
  return { ...('properties' in schema ? { additionalProperties: false } : {}), ...below } as T;
};
