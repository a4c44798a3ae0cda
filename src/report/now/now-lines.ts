import type { Now } from '../../core/now/now.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import { wrap } from '../sheet/grid.ts';
import type { Style } from '../style.ts';
import { commandText } from '../words/command-words.ts';
import { nowReasons, nowTitle } from '../words/now-words.ts';

const waitingText = (elapsed: number): string =>
  elapsed < 120 ? `${Math.round(elapsed)} min` : `${Math.round(elapsed / 60)} h`;

/** `, 6 min and 2 h of waiting`; nothing where it takes no time. */
export const effortText = ({
  minutes,
  elapsed,
}: {
  readonly minutes: number;
  readonly elapsed: number;
}): string => {
  const parts = [
    ...(minutes > 0 ? [`${Math.round(minutes)} min`] : []),
    ...(elapsed > 0 ? [`${waitingText(elapsed)} of waiting`] : []),
  ];
  return parts.length === 0 ? '' : `, ${parts.join(' and ')}`;
};

/** What to do now with its minutes, and who does it where that is not the technician. */
export const headText = (now: Now): string => {
  const who = now.for === 'technician' ? '' : ` (${now.for})`;
  return `Now: ${oneLine(nowTitle(now))}${effortText(now)}${who}`;
};

/** The same, in the lines of a sheet. */
export const headOfNow = (now: Now, { chalk, text, options }: Style): string[] =>
  wrap(text(headText(now)), options.width, 0, 5).map((line) => chalk.bold(line));

/** What to heed before it is done, and what to type after it. */
export const cautionAndCommand = ({ cautions, command }: Now, file: string, style: Style): string[] => {
  const { text, options } = style;
  return [
    ...cautions.flatMap((caution) => wrap(text(oneLine(`CAUTION: ${caution}`)), options.width, 5, 7)),
    // Never wrapped: it is there to be copied.
    ...(command === null ? [] : [text(`     ${commandText(command, file)}`)]),
  ];
};

/** What to do now: what it is, every reason, what to heed before it, and the line to type once it is done. */
export const nowLines = ({ now, job }: BriefWorksheet, file: string, style: Style): string => {
  const why = nowReasons(now, job.zone);
  return [
    ...headOfNow(now, style),
    ...(why === '' ? [] : wrap(style.text(oneLine(why)), style.options.width, 5)),
    ...cautionAndCommand(now, file, style),
  ].join('\n');
};
