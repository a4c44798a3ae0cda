import type { ConditionName, Snapshot } from '../../job.ts';

/** What moves a body or a signal without any fault. */
const telling: readonly ConditionName[] = ['floor', 'load', 'levelling'];

/** A fault that stops levelling is none of the conditions that somebody chose. */
const chosen = (word: string | undefined): string | undefined => (word === 'faulted' ? undefined : word);

/** Whether none of these conditions is stated as two different words: what one does not state is no difference. */
export const likeConditions = (
  one: Snapshot,
  other: Snapshot,
  names: readonly ConditionName[] = telling,
): boolean =>
  names.every((name) => {
    const [was, is] = [chosen(one.conditions.words[name]), chosen(other.conditions.words[name])];
    return was === undefined || is === undefined || was === is;
  });
