import type { Instant } from '../core/job.ts';
import { renderCsv } from './csv.ts';
import type { Format } from './formats.ts';
import { type Result, renderJson, renderNdjson } from './json/json.ts';
import { renderMarkdown } from './markdown.ts';
import { renderWorksheet } from './sheet/sheet.ts';
import { makeStyle, type ReportOptions } from './style.ts';

/** What a renderer gets: the results of a call, and for people how each file's shop wants its units. */
export interface Rendering {
  readonly results: readonly (Result & { readonly options: ReportOptions })[];
  readonly asOf: Instant;
  readonly version: string;
}

export type Renderer = (rendering: Rendering) => string;

/** Every output format. */
export const renderers = {
  table: ({ results }) =>
    results
      .filter((result) => result.sheet !== null)
      .map(({ file, sheet, options }) => (sheet ? renderWorksheet(sheet, file, makeStyle(options)) : ''))
      .join(`\n${'-'.repeat(Math.min(results[0]?.options.width ?? 80, 120))}\n\n`),
  json: ({ results, asOf, version }) => renderJson(results, asOf, version),
  ndjson: ({ results }) => renderNdjson(results),
  csv: ({ results }) => renderCsv(results),
  markdown: ({ results }) => renderMarkdown(results),
} as const satisfies Record<Format, Renderer>;
