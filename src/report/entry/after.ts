import type { BriefWorksheet } from '../../core/worksheet.ts';
import { footer } from '../sheet/footer.ts';
import { sheetHead } from '../sheet/head.ts';
import type { Style } from '../style.ts';
import { changeLine } from './change-line.ts';

/**
 * How a job stands after a command that changed it: what changed in a line, the head of its sheet, and whose word comes
 * first.
 *
 * @param said what the command has to say first
 * @param before the sheet as it was; null where there was none
 * @param file the job file as it was named, for the line to type
 */
export const afterChange = (
  said: readonly string[],
  before: BriefWorksheet | null,
  after: BriefWorksheet,
  file: string,
  style: Style,
): string => {
  const [written = '', ...more] = said;
  const changed = before && changeLine(before, after, style);
  const top = changed === null ? written : `${written}\n${changed}`;
  return `${[top, ...more, sheetHead(after, file, style), footer(style)].join('\n\n')}\n`;
};
