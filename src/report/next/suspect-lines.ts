import { corners } from '../../core/corner.ts';
import { springAt } from '../../core/suspects/evidence/spaces.ts';
import type { LedgerLine, RankedSuspect, Ranking } from '../../core/suspects/ranking.ts';
import { oneLine } from '../clean.ts';
import { wrap } from '../sheet/grid.ts';
import type { ReportOptions, Style } from '../style.ts';
import { isConfirmed, mostShown, percentText } from './advice-condition.ts';

/** Suspects below this are counted, not listed, unless all are asked for. */
const leastShown = 0.01;

/** Columns of a bar that stands for certainty: fewer on a narrow page, where names need the room. */
const barWidth = (width: number): number => (width < 80 ? 10 : 20);

const bar = (probability: number, { ascii, width }: ReportOptions): string => {
  const most = barWidth(width);
  return (ascii ? '#' : '■').repeat(Math.round(Math.min(probability, mostShown) * most)).padEnd(most);
};

/** A suspect with the component that a log names for it: `position sensor, LR (sensor.LR)`. */
export const namedSuspect = ({ title, component }: Pick<RankedSuspect, 'title' | 'component'>): string =>
  component === null ? title : `${title} (${component})`;

/** Each suspect with its share, the likeliest first. */
export const suspectLines = ({ suspects, advice }: Ranking, style: Style): string[] => {
  const { options, text, chalk } = style;
  const shown = suspects.filter(({ probability }) => options.all || probability >= leastShown);
  const rest = suspects.length - shown.length;
  const lines = shown.flatMap((suspect, index) => {
    const { id, probability } = suspect;
    const share = percentText(probability, isConfirmed(id, advice)).padStart(9);
    const head = `${share}  ${bar(probability, options)}  `;
    const [first = '', ...more] = wrap(
      text(oneLine(namedSuspect(suspect))),
      options.width - head.length,
      0,
      2,
    );
    const own = [text(head) + first, ...more.map((line) => ' '.repeat(head.length) + line)];
    return index === 0 ? own.map((line) => chalk.bold(line)) : own;
  });
  return [
    ...lines,
    ...(rest > 0 ? [text(`           and ${rest} more, each under 1 % (--all lists them)`)] : []),
  ];
};

const signed = (points: number): string => `${points >= 0 ? '+' : '-'}${Math.abs(points).toFixed(1)}`;

/** Values of evidence that are no words by themselves. */
const observedWords: Readonly<Record<string, string>> = {
  'electrical-together': 'all four electrically',
  'body-together': 'the whole body',
  side: 'one side',
  axle: 'one axle',
  several: 'several corners',
  ...Object.fromEntries(corners.map((corner) => [springAt(corner), `one spring, ${corner}`])),
};

const ledgerLine = (
  { title, observed, points, likelihood, rival, from }: LedgerLine,
  style: Style,
): string[] => {
  const { options, text } = style;
  const numbers = options.all
    ? ` [${likelihood.toFixed(3)} against ${rival.toFixed(3)}${from.length > 0 ? `; ${from.join(', ')}` : ''}]`
    : '';
  const what = observed === '' ? title : `${title}: ${observedWords[observed] ?? observed}`;
  const indent = 11;
  const [first = '', ...more] = wrap(text(oneLine(`${what}${numbers}`)), options.width - indent, 0);
  return [
    `${signed(points).padStart(indent - 2)}  ${first}`,
    ...more.map((line) => `${' '.repeat(indent)}${line}`),
  ];
};

const byWeight = (a: LedgerLine, b: LedgerLine): number => Math.abs(b.points) - Math.abs(a.points);

/** What speaks for a suspect and what against it, in points against its best rival. */
export const ledgerLines = (
  suspect: RankedSuspect,
  titles: ReadonlyMap<string, string>,
  style: Style,
): string[] => {
  const rival = titles.get(suspect.rival) ?? suspect.rival;
  const telling = suspect.ledger.filter(({ points }) => style.options.all || Math.abs(points) >= 0.05);
  const sum = suspect.ledger.reduce((total, { points }) => total + points, 0);
  return [
    ...wrap(
      style.text(
        `${oneLine(suspect.title)} against ${oneLine(rival)}, in points (3 double the odds, 10 make them tenfold)`,
      ),
      style.options.width,
      2,
      4,
    ),
    ...[...telling].sort(byWeight).flatMap((line) => ledgerLine(line, style)),
    style.text(`${signed(sum).padStart(9)}  together`),
  ];
};
