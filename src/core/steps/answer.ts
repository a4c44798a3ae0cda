import type { Condition } from './condition.ts';
import { answerFact } from './facts.ts';
import { type Answer, type Ground, no, yes } from './ground.ts';

const times = (answers: readonly Answer[]): number[] =>
  answers.map(({ at }) => at).filter((at) => at !== null);

/** All parts are needed, so the evidence is as old as its oldest part: work since then may have undone that. */
const oldest = (answers: readonly Answer[]): number | null =>
  times(answers).length === 0 ? null : Math.min(...times(answers));

/** One part is enough, so the newest speaks. */
const newest = (answers: readonly Answer[]): number | null =>
  times(answers).length === 0 ? null : Math.max(...times(answers));

/** Of ways that all fail, those that say what to do; that a step is not done yet is no news beside them. */
const whyNone = (parts: readonly Answer[]): readonly Answer[] => {
  const telling = parts.filter(({ reasons }) => reasons.some(({ kind }) => kind !== 'step-open'));
  return telling.length > 0 ? telling : parts;
};

/**
 * Whether a condition holds: when its evidence was complete, and why or why not. Of an `all` that fails only the
 * failing parts are reasons; of an `any` that holds only the parts that hold.
 */
export const answer = (condition: Condition, ground: Ground): Answer => {
  if ('all' in condition) {
    const parts = condition.all.map((part) => answer(part, ground));
    const failing = parts.filter(({ holds }) => !holds);
    return failing.length > 0
      ? no(...failing.flatMap(({ reasons }) => reasons))
      : yes(oldest(parts), ...parts.flatMap(({ reasons }) => reasons));
  }
  if ('any' in condition) {
    const parts = condition.any.map((part) => answer(part, ground));
    const holding = parts.filter(({ holds }) => holds);
    return holding.length > 0
      ? yes(newest(holding), ...holding.flatMap(({ reasons }) => reasons))
      : no(...whyNone(parts).flatMap(({ reasons }) => reasons));
  }
  if ('not' in condition) {
    return answer(condition.not, ground).holds ? no({ kind: 'not-so' }) : yes();
  }
  return answerFact(condition, ground);
};
