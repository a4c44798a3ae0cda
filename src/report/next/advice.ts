import type { Advice, AdviceCondition } from '../../core/suspects/ranking.ts';
import { oneLine } from '../clean.ts';
import { wrap } from '../sheet/grid.ts';
import type { Style } from '../style.ts';
import { percentText } from './suspects.ts';

/** More than these need not be read to know that the condition is not met. */
const mostNamed = 3;

const named = (lacks: readonly string[]): string =>
  lacks.length <= mostNamed
    ? lacks.join(', ')
    : `${lacks.slice(0, mostNamed).join(', ')} and ${lacks.length - mostNamed} more`;

/** What a condition says once it is met, and once it is not. */
const words: Readonly<Record<AdviceCondition['id'], (condition: AdviceCondition) => string>> = {
  'least-risk': ({ met }) =>
    met
      ? 'nothing else that could be done now risks less'
      : 'something else that could be done now risks less',
  'no-test-pays': ({ met, lacks }) =>
    met ? 'no test that is left would pay for itself' : `a test would pay for itself first: ${named(lacks)}`,
  'over-threshold': ({ met, threshold }) => {
    const from = threshold === null ? '' : ` (from ${percentText(threshold, true)} on)`;
    return met
      ? `likely enough to be worth its price${from}`
      : `not likely enough to be worth its price${from}`;
  },
  confirmed: ({ met, lacks }) =>
    met ? 'the tests that must confirm it are logged' : `not confirmed yet: ${named(lacks)}`,
  robust: ({ met }) =>
    met
      ? 'the advice stands when every likelihood is doubled or halved'
      : 'the advice does not stand when the likelihoods are doubled or halved',
};

const conditionLines = (condition: AdviceCondition, { text, options }: Style): string[] => {
  const word = (condition.met ? 'met' : 'NOT MET').padEnd(9);
  const [first = '', ...more] = wrap(text(oneLine(words[condition.id](condition))), options.width - 11, 0);
  return [`  ${word}${first}`, ...more.map((line) => `${' '.repeat(11)}${line}`)];
};

/** The five conditions before a part is ordered, each as met or not. */
export const adviceLines = (advice: Advice, titles: ReadonlyMap<string, string>, style: Style): string[] => {
  const { options, text, chalk } = style;
  const title = titles.get(advice.suspect) ?? advice.suspect;
  const head = advice.met ? `Order it: ${title}` : `Do not order yet: ${title}`;
  return [
    chalk.bold(text(oneLine(head))),
    ...advice.conditions.flatMap((condition) => conditionLines(condition, style)),
    ...wrap(
      text(`Worth repairing here rather than passing on from ${percentText(advice.worthFixing, true)} on.`),
      options.width,
      2,
    ),
  ];
};
