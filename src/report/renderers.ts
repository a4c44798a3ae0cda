import type { Instant } from '../core/job.ts';
import { renderCsv } from './csv.ts';
import type { Format } from './formats.ts';
import { type Result, renderJson, renderNdjson } from './json/json.ts';
import { renderMarkdown } from './markdown.ts';
import { renderCompared } from './sheet/compared.ts';
import { renderWorksheet } from './sheet/sheet.ts';
import { makeStyle, type ReportOptions, type Style } from './style.ts';

/** What a renderer gets: the results of a call, and for people how each file's shop wants its units. */
export interface Rendering {
  readonly results: readonly (Result & { readonly options: ReportOptions })[];
  readonly asOf: Instant;
  readonly version: string;
}

export type Renderer = (rendering: Rendering) => string;

const renderSheet = ({ file, sheet, compared }: Extract<Result, { problems: null }>, style: Style): string =>
  compared === null ? renderWorksheet(sheet, file, style) : renderCompared(sheet, compared, style);

/** Every output format. */
export const renderers = {
  table: ({ results }) =>
    results
      .filter((result) => result.sheet !== null)
      .map(({ options, ...result }) => (result.sheet ? renderSheet(result, makeStyle(options)) : ''))
      .join(`\n${'-'.repeat(Math.min(results[0]?.options.width ?? 80, 120))}\n\n`),
  json: ({ results, asOf, version }) => renderJson(results, asOf, version),
  ndjson: ({ results }) => renderNdjson(results),
  csv: ({ results }) => renderCsv(results),
  markdown: ({ results }) => renderMarkdown(results),
} as const satisfies Record<Format, Renderer>;
