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

/** What to do now: what it is, why, what to heed before it, and the line to type once it is done. */
export const nowLines = ({ now, job }: BriefWorksheet, file: string, style: Style): string => {
  const { chalk, text, options } = style;
  const who = now.for === 'technician' ? '' : ` (${now.for})`;
  const head = `Now: ${oneLine(nowTitle(now))}${effortText(now)}${who}`;
  const why = nowReasons(now, job.zone);
  return [
    ...wrap(text(head), options.width, 0, 5).map((line) => chalk.bold(line)),
    ...(why === '' ? [] : wrap(text(oneLine(why)), options.width, 5)),
    ...now.cautions.flatMap((caution) => wrap(text(oneLine(`CAUTION: ${caution}`)), options.width, 5, 7)),
    // Never wrapped: it is there to be copied.
    ...(now.command === null ? [] : [text(`     ${commandText(now.command, file)}`)]),
  ].join('\n');
};
