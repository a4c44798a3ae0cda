import type { Finding } from '../../finding.ts';
import type { Weights } from './spaces.ts';

/**
 * The words that a check has for what it finds, each with how probable it is that the readings are so.
 *
 * @returns null for a finding of a check that has no words
 */
export const wordWeights = ({ patternWeights }: Finding): Weights | null =>
  patternWeights && new Map(Object.entries(patternWeights));
