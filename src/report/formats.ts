/** The output formats, as `--format` names them. */
export const formats = ['table', 'json', 'ndjson', 'csv', 'markdown'] as const;
export type Format = (typeof formats)[number];
