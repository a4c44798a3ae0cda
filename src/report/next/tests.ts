import type { OutcomeEffect, RankedTest, Ranking } from '../../core/suspects/ranking.ts';
import { oneLine } from '../clean.ts';
import { wrap } from '../sheet/grid.ts';
import type { Style } from '../style.ts';
import { percentText } from './suspects.ts';

/** Few enough to choose from. */
const most = 3;

const savesText = ({ saves }: RankedTest, currency: string | null): string =>
  saves === null || saves <= 0
    ? ''
    : `, saves about ${saves.toFixed(0)}${currency === null ? '' : ` ${currency}`}`;

/** A number and its unit stay on one line. */
const kept = (text: string): string => text.replaceAll(' ', '\u00a0');
const released = (line: string): string => line.replaceAll('\u00a0', ' ');

const outcomeText = (
  { title, chance, leader, probability }: OutcomeEffect,
  titles: ReadonlyMap<string, string>,
): string =>
  `${oneLine(title)} (${kept(percentText(chance, true))} likely): then ${oneLine(titles.get(leader) ?? leader)}, ${kept(percentText(probability))}`;

const testLines = (
  test: RankedTest,
  index: number,
  titles: ReadonlyMap<string, string>,
  currency: string | null,
  style: Style,
): string[] => {
  const { options, chalk, text } = style;
  const head = `${index + 1}  ${oneLine(test.title)} (${test.id}), ${Math.round(test.minutes)} min${savesText(test, currency)}`;
  const [first = '', ...more] = wrap(text(head), options.width, 2, 5);
  const below = [
    ...test.points.map(oneLine),
    ...test.outcomes.map((outcome) => outcomeText(outcome, titles)),
    ...(options.all ? [`${test.bits.toFixed(3)} bits expected`] : []),
  ];
  return [
    index === 0 ? chalk.bold(first) : first,
    ...more,
    ...below.flatMap((line) => wrap(line, options.width, 5, 7)).map((line) => text(released(line))),
  ];
};

/** The next tests worth their minutes, with what each outcome would change, and what to heed. */
export const nextTestLines = (
  { nextTests }: Ranking,
  titles: ReadonlyMap<string, string>,
  currency: string | null,
  style: Style,
): string[] => {
  const { options, text } = style;
  const shown = options.all ? nextTests : nextTests.slice(0, most);
  const cautions = [...new Set(shown.flatMap((test) => [...test.cautions]))];
  return [
    ...shown.flatMap((test, index) => testLines(test, index, titles, currency, style)),
    ...cautions.flatMap((caution) => wrap(text(oneLine(`CAUTION: ${caution}`)), options.width, 2, 4)),
  ];
};
