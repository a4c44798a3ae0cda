import manifest from '../../package.json' with { type: 'json' };
import { fails } from '../core/level.ts';
import { mayLeave } from '../core/outlook/may-leave.ts';
import type { Worksheet as Sheet } from '../core/worksheet.ts';
import type { Shop as ShopFile } from '../input/job/shop.ts';
import { renderJson } from '../report/json/json.ts';
import { renderMarkdown } from '../report/markdown.ts';
import { renderWorksheet } from '../report/sheet/sheet.ts';
import { makeStyle, type ReportOptions } from '../report/style.ts';
import type { Output } from './generated/output.ts';
import type { FailLevel, JudgedJob, Look, Worksheet } from './types.ts';

/** A look with the units of a shop. */
export const optionsOf = (
  { width = 80, colour = false, ascii = false, all = false }: Look,
  shop: ShopFile | null,
): ReportOptions => {
  if (!(width >= 60)) throw new RangeError(`a sheet has 60 columns or more, not ${width}`);
  return {
    width,
    colour: colour ? 1 : 0,
    ascii,
    all,
    pressureUnit: shop?.pressureUnit ?? null,
    temperatureUnit: shop?.temperatureUnit ?? null,
  };
};

/** A judged job as whoever uses the package sees it. */
export const worksheetOf = (sheet: Sheet, file: string, shop: ShopFile | null): Worksheet => {
  const result = { file, sheet, problems: null, compared: null };
  const json = (): string => renderJson([result], sheet.asOf, manifest.version);
  return {
    asOf: new Date(sheet.asOf),
    verdict: mayLeave(sheet).verdict,
    data: () => (JSON.parse(json()) as Output).jobs[0] as JudgedJob,
    fails: (level: FailLevel = shop?.failOn ?? 'hold') => fails(sheet.findings, level),
    text: (look = {}) => renderWorksheet(sheet, file, makeStyle(optionsOf(look, shop))),
    markdown: (look = {}) => renderMarkdown([{ ...result, options: optionsOf(look, shop) }]),
    json,
  };
};
