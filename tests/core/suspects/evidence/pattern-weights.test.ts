import { describe, expect, it } from 'vitest';
import type { Finding, PatternRemark } from '../../../../src/core/finding.ts';
import type { CornerSignal } from '../../../../src/core/readings/corner-patterns.ts';
import { patternWeights } from '../../../../src/core/suspects/evidence/pattern-weights.ts';
import { findingOf, judge, keyOn } from '../../../support/judge.ts';
import { benchPack, signals } from '../bench-pack.ts';

const plain: Finding = findingOf(judge(benchPack, keyOn(`{${signals()}}`)), 'signal', 'LF');

const shares = {
  none: 0.1,
  'electrical-together': 0.2,
  'body-together': 0.1,
  corner: 0.3,
  spring: 0.1,
  side: 0.12,
  axle: 0.08,
};

/** Signals that nothing was fitted to. */
const signal: CornerSignal = { value: 2.5, expected: 2.5, spread: 0.6, sense: 1 };
const unfitted = { fits: [], signals: { LF: signal, RF: signal, LR: signal, RR: signal }, reference: 5 };

const weightsAt = (
  where: PatternRemark['where'],
  more: Partial<PatternRemark> = {},
): Record<string, number> => {
  const remark: PatternRemark = {
    kind: 'pattern',
    family: where === null ? 'electrical-together' : 'corner',
    where,
    model: where === null ? 'scaled' : 'corner',
    amount: 1,
    sure: 'positive',
    next: 'none',
    lead: 3,
    weights: shares,
    ...unfitted,
    ...more,
  };
  return Object.fromEntries(patternWeights({ ...plain, remarks: [remark] }) ?? []);
};

describe('a pattern as evidence', () => {
  it('gives a family of two models the mean of them, since its share is their sum', () => {
    const weights = weightsAt('LR');
    expect(weights['electrical-together']).toBeCloseTo(0.1, 12);
    expect(weights.side).toBeCloseTo(0.06, 12);
    expect(weights.axle).toBeCloseTo(0.04, 12);
    expect(weights['body-together']).toBe(0.1);
    expect(weights.none).toBe(0.1);
  });

  it('puts a single corner where it is best, and anywhere where none is', () => {
    expect(weightsAt('LR')).toMatchObject({ LR: 0.3 });
    expect(weightsAt('LR')).not.toHaveProperty('LF');
    expect(weightsAt(null)).toMatchObject({ LF: 0.075, RF: 0.075, LR: 0.075, RR: 0.075 });
  });

  it('puts a single spring where the best corner or spring is, and anywhere where none is', () => {
    expect(weightsAt('LR')).toMatchObject({ 'spring-LR': 0.1 });
    expect(weightsAt('LR')).not.toHaveProperty('spring-LF');
    expect(weightsAt(null)).toMatchObject({ 'spring-LF': 0.025, 'spring-RR': 0.025 });
    expect(weightsAt('LR', { family: 'spring' })).toMatchObject({ LR: 0.3, 'spring-LR': 0.1 });
  });

  it('is none of a finding that is no pattern', () => {
    expect(patternWeights(plain)).toBeNull();
  });
});
