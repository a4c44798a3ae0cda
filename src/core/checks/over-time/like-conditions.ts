import type { ConditionName, Snapshot } from '../../job.ts';

/** What moves a body or a signal without any fault. */
const telling: readonly ConditionName[] = ['floor', 'load', 'levelling'];

/** Whether none of these conditions is stated as two different words: what one does not state is no difference. */
export const likeConditions = (
  one: Snapshot,
  other: Snapshot,
  names: readonly ConditionName[] = telling,
): boolean =>
  names.every((name) => {
    const [was, is] = [one.conditions.words[name], other.conditions.words[name]];
    return was === undefined || is === undefined || was === is;
  });
