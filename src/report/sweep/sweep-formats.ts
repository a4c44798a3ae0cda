/** The output formats of a sweep, as `--format` names them. */
export const sweepFormats = ['table', 'json', 'ndjson', 'csv', 'markdown', 'html', 'monitor'] as const;
export type SweepFormat = (typeof sweepFormats)[number];
