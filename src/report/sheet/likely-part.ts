import type { Ranking } from '../../core/suspects/ranking.ts';
import type { Worksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import { isConfirmed, percentText } from '../next/advice-condition.ts';
import { pairText } from '../next/brief.ts';
import { namedSuspect } from '../next/suspect-lines.ts';
import type { Style } from '../style.ts';
import { wrap } from './grid.ts';

/** Suspects worth a line. */
const most = 3;
const leastNamed = 0.05;

/** A share in a word, since a number alone says little to whoever hears it read out. */
const shareWord = (probability: number): string => {
  if (probability >= 0.85) return 'very likely';
  if (probability >= 0.5) return 'likely';
  return probability >= 0.2 ? 'possible' : 'less likely';
};

const widest = 'very likely'.length;
/** Columns from which on the few suspects fit on a line or two. */
export const wide = 110;

interface Shown {
  readonly word: string;
  readonly share: string;
  readonly title: string;
}

const shownOf = (
  { id, title, component, probability }: Ranking['suspects'][number],
  { advice }: Ranking,
  seen: ReadonlySet<string>,
): Shown => ({
  word: component !== null && seen.has(component) ? 'confirmed' : shareWord(probability),
  share: percentText(probability, isConfirmed(id, advice)),
  title: oneLine(namedSuspect({ title, component })),
});

const inLines = (shown: readonly Shown[], { chalk, text, options }: Style): string[] =>
  shown.flatMap(({ word, share, title }, at) => {
    const line = `${word.padEnd(widest)} ${share.padStart(4)}  ${title}`;
    const lines = wrap(text(line), options.width, 2, widest + 9);
    return at === 0 ? lines.map((one) => chalk.bold(one)) : lines;
  });

/** The likeliest suspects, each with a word and its share; the rest are counted. */
export const likelyPart = ({ ranking, faults }: Worksheet, style: Style): string | null => {
  if (ranking === null) return null;
  const { chalk, text, options } = style;
  const { suspects } = ranking;
  const seen = new Set(faults.filter(({ proof }) => proof.by !== 'advice').map(({ component }) => component));
  const shown = suspects
    .slice(0, most)
    .filter(({ probability }, at) => at === 0 || probability >= leastNamed)
    .map((suspect) => shownOf(suspect, ranking, seen));
  const rest = suspects.length - shown.length;
  const pair = pairText(ranking);
  const label = 'Suspects';
  const flat = [
    ...shown.map(({ word, share, title }) => `${word} ${share} ${title}`),
    ...(rest > 0 ? [`and ${rest} more`] : []),
  ].join('; ');
  const lines =
    options.width >= wide
      ? wrap(text(`${label}: ${flat}`), options.width, 0, 2).map((line) =>
          line.replace(label, chalk.bold(label)),
        )
      : [
          chalk.bold(rest > 0 ? `${label}, the likeliest of ${suspects.length}` : label),
          ...inLines(shown, style),
        ];
  return [...lines, ...(pair === null ? [] : wrap(text(oneLine(pair)), options.width, 2))].join('\n');
};
