import type { OutcomeEffect, RankedTest, Ranking } from '../../core/suspects/ranking.ts';
import { oneLine } from '../clean.ts';
import { kept, released, wrap } from '../sheet/grid.ts';
import type { Style } from '../style.ts';
import { percentText } from './advice-condition.ts';
import { outcomeByHand } from './by-hand.ts';

/** Few enough to choose from. */
const most = 3;

/** Whether a test costs more than it can save and nothing waits for it; without costs nobody knows. */
const losesMoney = ({ saves, confirms }: RankedTest): boolean => saves !== null && saves <= 0 && !confirms;

const savesText = (test: RankedTest, currency: string | null): string => {
  if (losesMoney(test)) return ', not worth its minutes here';
  if (test.saves !== null && test.saves <= 0) return ', wanted before the repair';
  return test.saves === null
    ? ''
    : `, saves about ${test.saves.toFixed(0)}${currency === null ? '' : ` ${currency}`}`;
};

const waitingText = (elapsed: number): string =>
  elapsed < 120 ? `${Math.round(elapsed)} min` : `${Math.round(elapsed / 60)} h`;

/** A test that takes waiting says so, and one that is work says what it brings. */
const minutesText = ({ minutes, brings, elapsed }: RankedTest): string =>
  [
    `${Math.round(minutes)} min`,
    ...(elapsed > 0 ? [`${waitingText(elapsed)} of waiting`] : []),
    ...(brings > 0 ? [`${Math.round(brings)} min of work after it`] : []),
  ].join(' and ');

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
  const head = `${index + 1}  ${oneLine(test.title)} (${test.id}), ${minutesText(test)}${savesText(test, currency)}`;
  const [first = '', ...more] = wrap(text(head), options.width, 2, 5);
  const below = [
    ...test.points.map(oneLine),
    ...(losesMoney(test) && !options.all ? [] : test.outcomes).flatMap((outcome) => [
      outcomeText(outcome, titles),
      ...(options.all ? [`found with: ${outcomeByHand(outcome)}`] : []),
    ]),
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
  if (!options.all && nextTests.length > 0 && nextTests.every(losesMoney)) {
    return wrap(text('None is worth its minutes now (--all lists them).'), options.width, 2);
  }
  const shown = options.all ? nextTests : nextTests.slice(0, most);
  const cautions = [...new Set(shown.flatMap((test) => [...test.cautions]))];
  return [
    ...shown.flatMap((test, index) => testLines(test, index, titles, currency, style)),
    ...cautions.flatMap((caution) => wrap(text(oneLine(`CAUTION: ${caution}`)), options.width, 2, 4)),
  ];
};
