import type { Ranking } from '../../core/suspects/ranking.ts';
import type { Worksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import { wrap } from '../sheet/grid.ts';
import type { Style } from '../style.ts';
import { isConfirmed, percentText } from './advice-condition.ts';

/** Suspects worth a word in a line. */
const most = 3;
const leastNamed = 0.05;

/** That two faults at once explain the evidence far better than any one; null where they do not. */
export const pairText = ({ pair, suspects }: Ranking): string | null => {
  if (pair === null) return null;
  const titles = pair.map((id) => suspects.find((one) => one.id === id)?.title ?? id);
  return `Two faults at once explain this better than any one: ${titles.join(' and ')}.`;
};

/** A line or two: who is suspected, and whether two faults at once explain it better. */
export const suspectsBrief = ({ ranking }: Worksheet, style: Style): string | null => {
  if (ranking === null) return null;
  const { chalk, text, options } = style;
  const named = ranking.suspects.filter(({ probability }) => probability >= leastNamed).slice(0, most);
  const { advice } = ranking;
  const who = named
    .map(({ id, title, probability }) => `${title} ${percentText(probability, isConfirmed(id, advice))}`)
    .join(', ');
  const pair = pairText(ranking);
  const lines = [`Suspects: ${who}`, ...(pair === null ? [] : [pair])];
  return lines
    .map((line, index) => {
      const [only = ''] = [oneLine(line)];
      const wrapped = wrap(text(only), options.width, 0, 2).join('\n');
      return index === 0 ? chalk.bold(wrapped) : wrapped;
    })
    .join('\n');
};
