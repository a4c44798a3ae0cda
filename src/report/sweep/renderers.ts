import { renderSweepCsv } from './csv.ts';
import type { SweepFormat } from './formats.ts';
import { renderSweepHtml } from './html.ts';
import { renderSweepJson, renderSweepNdjson } from './json.ts';
import { renderSweepMarkdown } from './markdown.ts';
import { renderSweepMonitor } from './monitor.ts';
import type { SweepRenderer } from './rendering.ts';
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
