import type { Finding } from '../finding.ts';
import type { Weights } from './spaces.ts';

/**
 * The words that a check of words finds, each with how probable it is that the readings are so.
 *
 * @returns null for a finding of a check that says no words
 */
export const wordWeights = ({ remarks }: Finding): Weights | null => {
  for (const remark of remarks) {
    if (remark.kind === 'word') return new Map(Object.entries(remark.weights));
  }
  return null;
};
