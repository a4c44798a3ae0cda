import type { Worksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import { reasonText } from '../reasons.ts';
import type { Style } from '../style.ts';
import { wrap } from './grid.ts';

/** The most reasons shown for one hold point before the rest are counted. */
const most = 6;

/** Each hold point with what it still lacks. */
export const holdPointsList = (sheet: Worksheet, style: Style): string | null => {
  const { chalk, text, options } = style;
  if (sheet.holdPoints.length === 0) return null;
  const lines = sheet.holdPoints.flatMap(({ title, clear, reasons }) => {
    const state = clear ? 'clear' : 'NOT CLEAR';
    const head = `  ${clear ? state.padEnd(10) : chalk.bold(state.padEnd(10))} ${oneLine(title)}`;
    const texts = reasons.map((reason) => reasonText(reason, sheet.job.zone));
    const steps = texts.filter((each) => each.startsWith('step outstanding: '));
    // The steps stand in their own list just above; here they are counted.
    const grouped =
      steps.length > 2 && !options.all
        ? [...texts.filter((each) => !steps.includes(each)), `${steps.length} steps outstanding (above)`]
        : texts;
    const shown = options.all ? grouped : grouped.slice(0, most);
    const rest = grouped.length - shown.length;
    const all = rest > 0 ? [...shown, `and ${rest} more (--all shows them)`] : shown;
    return [head, ...all.flatMap((each) => wrap(`             ${oneLine(each)}`, options.width, 15))];
  });
  return `${chalk.bold('Hold points')}\n${text(lines.join('\n'))}`;
};
