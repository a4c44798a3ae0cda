import type { Advice, AdviceCondition } from '../../core/suspects/ranking.ts';

/** Confidence is not shown above this until a confirming test has passed. */
export const mostShown = 0.95;

/** `62 %`, `under 1 %`; capped where nothing has confirmed it. */
export const percentText = (probability: number, confirmed = false): string => {
  const shown = confirmed ? probability : Math.min(probability, mostShown);
  return shown < 0.005 ? 'under 1 %' : `${Math.round(shown * 100)} %`;
};

/** Whether the tests that must confirm a suspect are logged. */
export const isConfirmed = (id: string, advice: Advice | null): boolean =>
  advice?.suspect === id && advice.conditions.some((one) => one.id === 'confirmed' && one.met);

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

/** What a condition says, as it is met or not. */
export const conditionText = (condition: AdviceCondition): string => words[condition.id](condition);
