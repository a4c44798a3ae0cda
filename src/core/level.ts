import { counts, type Finding, weightOrder } from './finding.ts';
import type { Weight } from './job.ts';

export const failLevels = ['hold', 'look', 'never'] as const;
export type FailLevel = (typeof failLevels)[number];

/** The weight at which a finding counts for the exit code, or null: too close counts as look, not taken as note. */
export const levelOf = (finding: Finding): Weight | null => {
  if (counts(finding)) return finding.weight;
  // A stale reading that was too close says nothing any more.
  if (finding.waived !== null || !finding.current) return null;
  if (finding.verdict === 'too-close')
    return weightOrder[finding.weight] > weightOrder.look ? finding.weight : 'look';
  return finding.verdict === 'not-taken' ? 'note' : null;
};

/** Whether any finding reaches the fail level. */
export const fails = (findings: readonly Finding[], level: FailLevel): boolean =>
  level !== 'never' &&
  findings.some((finding) => {
    const weight = levelOf(finding);
    return weight !== null && weightOrder[weight] <= weightOrder[level];
  });
