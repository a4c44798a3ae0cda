import type { Advice, AdviceCondition, Ranking } from '../../core/suspects/ranking.ts';
import { sureTestPaysUntil } from '../../core/suspects/stakes.ts';
import { oneLine } from '../clean.ts';
import { wrap } from '../sheet/grid.ts';
import type { Style } from '../style.ts';
import { conditionText, percentText } from './advice-condition.ts';
import { namedSuspect } from './suspect-lines.ts';

const conditionLines = (condition: AdviceCondition, { text, options }: Style): string[] => {
  const word = (condition.met ? 'met' : 'NOT MET').padEnd(9);
  const [first = '', ...more] = wrap(text(oneLine(conditionText(condition))), options.width - 11, 0);
  return [`  ${word}${first}`, ...more.map((line) => `${' '.repeat(11)}${line}`)];
};

/** What the two closed forms come to, with their numbers. */
const thresholdLines = (
  { wrongPart, escalate, rate, rateAssumed, worthFixing }: Advice,
  [test]: Ranking['nextTests'],
  currency: string | null,
  { options, text }: Style,
): string[] => {
  const money = (amount: number): string => `${amount.toFixed(0)}${currency === null ? '' : ` ${currency}`}`;
  const price = test ? (test.minutes / 60) * rate : 0;
  const sentences = [
    ...(rateAssumed
      ? [
          `An hour of work is taken at ${money(rate)}, since neither the job nor the shop file says what it costs.`,
        ]
      : []),
    `A wrong one loses ${money(wrongPart)} (W), passing the job on ${money(escalate)} (E): worth repairing here from W / (W + E) = ${percentText(worthFixing, true)} on.`,
    ...(test
      ? [
          `A sure test of ${Math.round(test.minutes)} min costs ${money(price)} (t) and pays until 1 - t / W = ${percentText(sureTestPaysUntil(price, wrongPart), true)}.`,
        ]
      : []),
  ];
  return sentences.flatMap((one) => wrap(text(oneLine(one)), options.width, 2));
};

/** The five conditions before a part is ordered, each as met or not, and where the thresholds lie. */
export const adviceLines = (
  advice: Advice,
  { suspects, nextTests }: Pick<Ranking, 'suspects' | 'nextTests'>,
  currency: string | null,
  style: Style,
): string[] => {
  const { text, chalk, options } = style;
  const suspect = suspects.find(({ id }) => id === advice.suspect);
  const title = suspect ? namedSuspect(suspect) : advice.suspect;
  const work = suspect?.isPart === false ? 'repair' : 'order';
  const head = advice.met
    ? `${work === 'order' ? 'Order it' : 'Repair it'}: ${title}`
    : `Do not ${work} yet: ${title}`;
  return [
    ...wrap(text(oneLine(head)), options.width, 0, 2).map((line) => chalk.bold(line)),
    ...advice.conditions.flatMap((condition) => conditionLines(condition, style)),
    ...thresholdLines(advice, nextTests, currency, style),
  ];
};
