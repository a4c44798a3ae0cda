import { type Corner, corners } from '../../corner.ts';
import type { Finding, PatternRemark } from '../../finding.ts';
import { springAt, type Weights } from './spaces.ts';

/** How many models a family has: its share is their sum, and its likelihood their mean. */
const models = { 'electrical-together': 2, side: 2, axle: 2 } as const;

const patternRemark = (finding: Finding): PatternRemark | undefined => {
  for (const remark of finding.remarks) if (remark.kind === 'pattern') return remark;
  return undefined;
};

const isCorner = (place: unknown): place is Corner => corners.some((corner) => corner === place);

/**
 * What a pattern of four corners is under each of its possible values: the shares of its families, which come from
 * likelihoods and are shares of them. Where no single corner is best, a single corner could be any.
 *
 * @returns null for a finding that is no pattern
 */
export const patternWeights = (finding: Finding): Weights | null => {
  const remark = patternRemark(finding);
  if (!remark) return null;
  const { weights, where } = remark;
  const single = isCorner(where) ? [where] : corners;
  return new Map([
    ['none', weights.none],
    ['electrical-together', weights['electrical-together'] / models['electrical-together']],
    ['body-together', weights['body-together']],
    ['side', weights.side / models.side],
    ['axle', weights.axle / models.axle],
    ...single.map((corner): [string, number] => [corner, weights.corner / single.length]),
    ...single.map((corner): [string, number] => [springAt(corner), weights.spring / single.length]),
  ]);
};
