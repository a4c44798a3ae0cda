import { renderSweepHtml } from './html.ts';
import { renderSweepMonitor } from './monitor.ts';
import type { SweepRenderer } from './rendering.ts';
import { renderSweepCsv } from './sweep-csv.ts';
import type { SweepFormat } from './sweep-formats.ts';
import { renderSweepJson, renderSweepNdjson } from './sweep-json.ts';
import { renderSweepMarkdown } from './sweep-markdown.ts';
import { renderSweepTable } from './table.ts';

/** Every output format of a sweep. */
export const sweepRenderers = {
  table: renderSweepTable,
  json: renderSweepJson,
  ndjson: renderSweepNdjson,
  csv: renderSweepCsv,
  markdown: renderSweepMarkdown,
  html: renderSweepHtml,
  monitor: renderSweepMonitor,
} as const satisfies Record<SweepFormat, SweepRenderer>;
