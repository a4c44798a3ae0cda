import type { Worksheet } from '../../core/worksheet.ts';
import type { Style } from '../style.ts';
import { beforeLeavingPart } from './before-leaving-part.ts';
import { beforeAfterLine } from './comparison.ts';
import { cornersPart } from './corners-part.ts';
import { footer } from './footer.ts';
import { sheetHead } from './head.ts';
import { likelyPart, wide } from './likely-part.ts';
import { notKnownPart } from './not-known-part.ts';
import { outPart } from './out-part.ts';
import { renderWhole } from './whole.ts';

const joined = (parts: readonly (string | null)[], between: string): string =>
  parts.filter((part) => part !== null).join(between);

/** Lines of one screen at a width. */
const screen = (width: number): number => (width >= wide ? 30 : 40);

/** How much is told of what only deserves a look, the most first. */
const looks = [4, 2, 1, 0];

/**
 * The worksheet of one job on one screen, for people; everything with `--all`. What holds the vehicle, the cautions of
 * what is to be done now and the steps are never shortened. Where they are many, the empty lines between the parts go
 * first; where that is not enough, the sheet is longer than a screen.
 *
 * @param file the job file as it was named, for the line to type
 */
export const renderWorksheet = (sheet: Worksheet, file: string, style: Style): string => {
  if (style.options.all) return renderWhole(sheet, file, style);
  const above = [sheetHead(sheet, file, style), cornersPart(sheet, style)];
  const since = beforeAfterLine(sheet.beforeAfter, style);
  const likely = likelyPart(sheet, style);
  const isWide = style.options.width >= wide;
  const below = [beforeLeavingPart(sheet, style), joined([notKnownPart(sheet, style), footer(style)], '\n')];
  const withLooks = (most: number, between: string): string => {
    // On a wide screen the suspects are a line or two that belong to what is out.
    const out = joined([outPart(sheet, style, most), since, likely], isWide ? '\n' : between);
    return `${joined([...above, out, ...below], between)}\n`;
  };
  const room = screen(style.options.width);
  const tried = ['\n\n', '\n'].flatMap((between) => looks.map((most) => () => withLooks(most, between)));
  for (const make of tried) {
    const text = make();
    if (text.split('\n').length - 1 <= room) return text;
  }
  return withLooks(0, '\n');
};
