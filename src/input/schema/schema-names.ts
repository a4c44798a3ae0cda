/** The schemas that ship, as commands name them. */
export const schemaNames = ['job', 'pack', 'shop', 'output', 'sweep'] as const;
export type SchemaName = (typeof schemaNames)[number];
