import { mayLeave } from '../../core/outlook/may-leave.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import { briefNowLines } from '../now/brief-now.ts';
import type { Style } from '../style.ts';
import { mayLeaveText } from '../words/leave-words.ts';
import { wrap } from './grid.ts';
import { heading, warningLines } from './heading.ts';

/** Whether the vehicle may leave, with the shortest reason. */
export const mayLeaveLines = (sheet: BriefWorksheet, { chalk, text, options }: Style): string[] => {
  const leave = mayLeave(sheet);
  const lines = wrap(text(oneLine(mayLeaveText(leave, sheet.job.zone, options.width))), options.width, 0, 2);
  const paint = leave.verdict.startsWith('do-not') ? chalk.bold.magenta : chalk.bold;
  return lines.map((line) => paint(line));
};

/**
 * The top of a sheet: which job it is, whether the vehicle may leave, and what to do now. It is what every command ends
 * with that changed a job.
 *
 * @param file the job file as it was named, for the line to type
 */
export const sheetHead = (sheet: BriefWorksheet, file: string, style: Style): string =>
  [
    heading(sheet, style),
    ...mayLeaveLines(sheet, style),
    ...briefNowLines(sheet, file, style),
    ...warningLines(sheet, style),
  ].join('\n');
