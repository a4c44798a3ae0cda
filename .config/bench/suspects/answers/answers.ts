import { axleOf, axles } from '../../../../src/core/corner.ts';
import { parseKey } from '../../../../src/core/key.ts';
import { airAnswers } from './air.ts';
import type { Bench } from './bench.ts';
import { signalAnswers } from './signals.ts';
import { supplyAnswers } from './supply.ts';

const answers = { ...supplyAnswers, ...signalAnswers, ...airAnswers };

/** What a look at a component begins with in the log of a policy. */
export const looking = 'inspected ';

/** How often an eye takes a good part for a bad one. Judgement, from memory. */
const mistaken = 0.003;

/** What a look at a component shows: a fault as often as it can be seen, where it is the one that is broken. */
const sightOf = (component: string, { member: { troubles }, luck }: Bench): string => {
  const seen = troubles
    .filter((trouble) => trouble.component === component)
    .reduce((most, { fault }) => Math.max(most, fault.visible), mistaken);
  return luck.chance(seen) ? 'fault-seen' : 'nothing-seen';
};

/**
 * What a technician finds who does a test on a vehicle, by its physics and the instruments.
 *
 * @param test `arm-by-hand.LR`, or `inspected linkage.LR`
 */
export const answerOf = (test: string, bench: Bench): string => {
  if (test.startsWith(looking)) return sightOf(test.slice(looking.length), bench);
  const { base, corner, axle } = parseKey(test);
  const answer = answers[test] ?? answers[base];
  if (!answer) throw new Error(`the simulated technician does not know the test ${test}`);
  const at = corner ?? (axle ? axles[axle][0] : (bench.member.car.fitted[0] ?? 'LF'));
  return answer(bench, { corner: at, axle: axleOf(at) });
};
