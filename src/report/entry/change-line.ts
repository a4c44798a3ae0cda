import { compareSheets } from '../../core/changes.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import { fitting } from '../sheet/fitting.ts';
import { wrap } from '../sheet/grid.ts';
import type { Style } from '../style.ts';
import { keysText } from '../words/key-words.ts';

/** What an entry changed, on one line; null where steps, hold points and readings stand as they did. */
export const changeLine = (before: BriefWorksheet, after: BriefWorksheet, style: Style): string | null => {
  const { text, options } = style;
  const { steps, holdPoints, stale } = compareSheets(before, after);
  const old = [...new Set(stale.flatMap(({ channels }) => [...channels]))];
  const done = steps.filter(({ was, now }) => was !== 'not-needed' && (now === null || now === 'done'));
  const again = steps.filter(({ was, now }) => was === 'done' && (now === 'ready' || now === 'waiting'));
  const parts = [
    ...(old.length > 0 ? [`older than this: ${keysText(old)}`] : []),
    ...holdPoints.map(({ point, clear }) => `"${point.title}" is ${clear ? 'clear' : 'not clear any more'}`),
    ...again.map(({ step }) => `"${step.title}" has to be done again`),
    ...done.map(({ step }) => `"${step.title}" is done`),
  ].map((part) => text(oneLine(part)));
  if (parts.length === 0) return null;
  return wrap(fitting(parts, options.width - 2), options.width, 2, 4).join('\n');
};
