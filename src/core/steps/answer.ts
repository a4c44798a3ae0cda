import type { Reason } from '../worksheet-parts.ts';
import type { Condition } from './condition.ts';
import { answerFact } from './facts.ts';
import { type Answer, type Ground, no, yes } from './ground.ts';

const reasonsOf = (answers: readonly Answer[]): Reason[] => {
  const [only] = answers;
  if (only !== undefined && answers.length === 1) return [...only.reasons];
  const reasons: Reason[] = [];
  for (const answer of answers) reasons.push(...answer.reasons);
  return reasons;
};

/** The time of the answer that `chosen` takes, of those that have one. */
const timeOf = (answers: readonly Answer[], chosen: (a: number, b: number) => number): number | null => {
  let time: number | null = null;
  for (const { at } of answers) if (at !== null) time = time === null ? at : chosen(time, at);
  return time;
};

/** Of ways that all fail, those that say what to do; that a step is not done yet is no news beside them. */
const whyNone = (parts: readonly Answer[]): readonly Answer[] => {
  const telling = parts.filter(({ reasons }) => reasons.some(({ kind }) => kind !== 'step-open'));
  return telling.length > 0 ? telling : parts;
};

/** Every part is asked: what does not hold is told whole, and the newest of what does counts. */
const parted = (
  parts: readonly Condition[],
  ground: Ground,
): { readonly holding: readonly Answer[]; readonly failing: readonly Answer[] } => {
  const holding: Answer[] = [];
  const failing: Answer[] = [];
  for (const part of parts) {
    const one = answer(part, ground);
    (one.holds ? holding : failing).push(one);
  }
  return { holding, failing };
};

/**
 * Whether a condition holds: when its evidence was complete, and why or why not. Of an `all` that fails only the
 * failing parts are reasons; of an `any` that holds only the parts that hold.
 */
export const answer = (condition: Condition, ground: Ground): Answer => {
  if ('fact' in condition) return answerFact(condition, ground);
  if ('all' in condition) {
    const { holding, failing } = parted(condition.all, ground);
    if (failing.length > 0) return { holds: false, at: null, reasons: reasonsOf(failing) };
    // All parts are needed, so the evidence is as old as its oldest part: work since then may have undone that.
    return { holds: true, at: timeOf(holding, Math.min), reasons: reasonsOf(holding) };
  }
  if ('any' in condition) {
    const { holding, failing } = parted(condition.any, ground);
    if (holding.length === 0) return { holds: false, at: null, reasons: reasonsOf(whyNone(failing)) };
    // One part is enough, so the newest speaks.
    return { holds: true, at: timeOf(holding, Math.max), reasons: reasonsOf(holding) };
  }
  return answer(condition.not, ground).holds ? no({ kind: 'not-so' }) : yes();
};
