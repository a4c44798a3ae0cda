import { describe, expect, it } from 'vitest';
import { heldBy } from '../../../src/core/outlook/held.ts';
import type { Reason } from '../../../src/core/worksheet-parts.ts';

const finding = (stale: boolean): Reason => ({
  kind: 'finding',
  finding: 'bench/rails:LF@as-found',
  title: 'Rails',
  subject: 'LF',
  state: 'key-on',
  verdict: 'out',
  stale,
});
const step: Reason = { kind: 'step-open', step: 'bench/road-test', title: 'Road test' };
const notLeading: Reason = {
  kind: 'part-not-leading',
  title: 'module',
  probability: 0.04,
  leader: 'reference',
  leads: 0.5,
};

describe('the one thing that keeps a hold point from being clear', () => {
  it.each([
    ['what is out now', [step, finding(true), finding(false)], 'findings'],
    ['the part in question before its cost', [{ kind: 'cost-not-authorised' }, notLeading], 'reason'],
    ['what was out before the work, ahead of steps', [step, finding(true)], 'old-findings'],
    ['the steps', [step, { kind: 'stale-evidence', checks: [] }], 'steps'],
    ['whatever is left', [{ kind: 'stale-evidence', checks: [] }], 'reason'],
  ] as const)('is %s', (_, reasons, of) => {
    expect(heldBy(reasons as readonly Reason[], []).of).toBe(of);
  });

  it('names the part rather than its cost', () => {
    expect(heldBy([{ kind: 'cost-not-authorised' }, notLeading], [])).toEqual({
      of: 'reason',
      reason: notLeading,
    });
  });
});
