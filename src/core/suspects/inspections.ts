import { keyOf } from '../key.ts';
import type { Test } from '../pack.ts';
import type { Hypothesis } from './hypotheses.ts';
import type { Probing } from './recorded-tests.ts';

const outcomes: Test['outcomes'] = [
  { id: 'fault-seen', title: 'a fault is seen' },
  { id: 'nothing-seen', title: 'nothing is seen' },
];

/**
 * A look at every component that a suspect of the vehicle would be repaired by, at its place: it takes few minutes, and
 * what an eye saw outranks volts.
 */
export const inspectionsOf = (hypotheses: readonly Hypothesis[]): Probing[] => {
  const probings = new Map<string, Probing>();
  for (const { suspect, place } of hypotheses) {
    if (!suspect?.repaired) continue;
    const component = keyOf(suspect.component, place);
    if (probings.has(component)) continue;
    const test: Test = {
      id: `inspected ${suspect.component}`,
      per: suspect.per,
      perCorner: suspect.per === 'corner',
      title: `A look at the ${suspect.title}`,
      minutes: suspect.inspect.minutes,
      outcomes,
      points: [],
      cautions: [],
      acts: [],
      how: [],
      group: null,
      setUp: null,
      brings: 0,
      elapsed: 0,
      depends: [suspect.component],
      after: [],
      notWhile: [],
      wants: [],
      layouts: null,
    };
    probings.set(component, { id: `inspected ${component}`, test, place, inspects: component });
  }
  return [...probings.values()];
};
