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

/** A few lines: who is suspected, what to do next, and whether the part may be ordered. */
export const suspectsBrief = ({ ranking }: Worksheet, style: Style): string | null => {
  if (ranking === null) return null;
  const { chalk, text, options } = style;
  const named = ranking.suspects.filter(({ probability }) => probability >= leastNamed).slice(0, most);
  const { advice } = ranking;
  const who = named
    .map(({ id, title, probability }) => `${title} ${percentText(probability, isConfirmed(id, advice))}`)
    .join(', ');
  const [test] = ranking.nextTests;
  const pair = pairText(ranking);
  const settled = advice?.met && test && test.saves !== null && test.saves <= 0;
  const next = test && !settled ? `${test.title} (${test.id}), ${Math.round(test.minutes)} min` : null;
  const order =
    advice === null
      ? null
      : advice.met
        ? named[0]?.isPart === false
          ? 'it may be repaired'
          : 'the part may be ordered'
        : 'order no part yet';
  const lines = [
    `Suspects: ${who}`,
    ...(pair === null ? [] : [pair]),
    ...(next === null ? [] : [`Next: ${next}`]),
    ...(order === null ? [] : [`For now: ${order}; "cornerwise next" has the reasons`]),
  ];
  return lines
    .map((line, index) => {
      const [only = ''] = [oneLine(line)];
      const wrapped = wrap(text(only), options.width, 0, 2).join('\n');
      return index === 0 ? chalk.bold(wrapped) : wrapped;
    })
    .join('\n');
};
